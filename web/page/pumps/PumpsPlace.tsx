import { ask } from '../shell/ask.ts';
import { Awaited } from '../shell/Entry.tsx';
import { address } from '../shell/route.ts';
import { useAnswer } from '../shell/useAnswer.ts';

/** Every pump that has a record. */
export function PumpsPlace() {
  const pumps = useAnswer('pumps', ask.pumps);
  return (
    <>
      <h1>Pumps</h1>
      <p>
        <a href={address.newPump}>Write a record for a new pump</a>
      </p>
      <Awaited answer={pumps}>
        {(list) =>
          list.length === 0 ? (
            <p>
              No pump record is in the archive yet. <a href={address.newPump}>Write the first one</a>: its number, its
              geometry as measured, and what the machine needs of it.
            </p>
          ) : (
            <table class="stacking" data-testid="pump-table">
              <thead>
                <tr>
                  <th scope="col">pump</th>
                  <th scope="col">type</th>
                  <th scope="col">number</th>
                  <th scope="col">machine</th>
                  <th scope="col" class="number">
                    demands
                  </th>
                </tr>
              </thead>
              <tbody>
                {list.map((pump) => (
                  <tr key={pump.id}>
                    <th scope="row">
                      <a href={address.pump(pump.id)}>{pump.name}</a>
                    </th>
                    <td>{pump.type}</td>
                    <td data-head="no." class="unbroken">
                      {pump.serialNumber}
                    </td>
                    <td>{pump.duty?.machine ?? '–'}</td>
                    <td data-head="demands" class="number">
                      {pump.duty?.demands.length ?? 'none'}
                    </td>
                  </tr>
                ))}
              </tbody>
            </table>
          )
        }
      </Awaited>
    </>
  );
}
