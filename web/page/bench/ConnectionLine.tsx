import type { SessionState } from '../../api.ts';
import { isServerThere } from '../live/liveBench.ts';

const STATUS_WORDS: Readonly<Record<SessionState['connection']['status'], string>> = {
  open: 'Listening to',
  waiting: 'Waiting for',
  closed: 'Not listening to',
};

/** In words: which bench, on which line, and whether it speaks. */
export function ConnectionLine({ state }: { readonly state: SessionState }) {
  const { connection, practice, benchId } = state;
  return (
    <div role="status" data-testid="connection">
      {isServerThere.value ? null : (
        <p class="look-here">The program does not answer. What stands below is old; the journal is not affected.</p>
      )}
      <p>
        {STATUS_WORDS[connection.status]} bench {benchId} on {connection.path}: {connection.detail}.
      </p>
      {practice !== null && (
        <p>
          <strong>Practice bench{practice.speedUp === 1 ? '' : `, ×${practice.speedUp}`}</strong>: no real pump is
          running; what is filed from it is a specimen.
        </p>
      )}
    </div>
  );
}
