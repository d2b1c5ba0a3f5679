import { address } from '../shell/route.ts';
import { lostRunId } from './watchedRun.ts';

/** Says what became of a run that was open when the program ended under it. */
export function LostRun() {
  const id = lostRunId.value;
  if (id === null) return null;
  return (
    <p class="look-here" role="status" data-testid="lost-run">
      The program was ended while run {id} was recorded and has been started again. The run is sealed up to its last
      whole line: <a href={address.run(id)}>read run {id}</a>.
    </p>
  );
}
