import type { RefObject } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';
import type { CertificateCheck } from '../../api.ts';
import { ask } from '../shell/ask.ts';
import { Refusal } from '../shell/Entry.tsx';
import { useAction } from '../shell/useAction.ts';
import { wallTime } from '../words/moments.ts';

/** Bytes as they travel; in pieces, since a call takes so many arguments and no more. */
async function base64Of(file: File): Promise<string> {
  const bytes = new Uint8Array(await file.arrayBuffer());
  let text = '';
  for (let at = 0; at < bytes.length; at += 0x8000) text += String.fromCharCode(...bytes.subarray(at, at + 0x8000));
  return btoa(text);
}

function CheckOf({ check }: { readonly check: CertificateCheck }) {
  if (check.state !== 'whole') {
    return (
      <li class="look-here">
        <p>
          <span aria-hidden="true">▲</span> <strong>{check.path}</strong>: {check.state}. {check.why}
        </p>
      </li>
    );
  }
  return (
    <li>
      <p class="lead">
        {check.path}: whole, as it was signed. {check.title}
        {check.isSpecimen && <strong class="specimen"> SPECIMEN</strong>}
      </p>
      <dl class="facts">
        <div>
          <dt>number</dt>
          <dd>{check.number}</dd>
        </div>
        <div>
          <dt>pump</dt>
          <dd>
            {check.pumpName}, <span class="unbroken">{check.serialNumber}</span>
          </dd>
        </div>
        <div>
          <dt>outcome</dt>
          <dd class="verdict">{check.outcome}</dd>
        </div>
        <div>
          <dt>issued</dt>
          <dd>
            {wallTime(check.issuedAtUtc)}, {check.signatory}
          </dd>
        </div>
        <div>
          <dt>signed by</dt>
          <dd>
            {check.signedBy.subject};{' '}
            {check.isKeyKnown ? 'a key of this machine' : 'a key that this machine does not know'}
          </dd>
        </div>
        <div>
          <dt>standing</dt>
          <dd>{check.standing.text}</dd>
        </div>
        <div>
          <dt>chain</dt>
          <dd>{check.chain.text}</dd>
        </div>
      </dl>
      <p class="faint">It cannot be known from this: {check.cannotKnow.join(' ')}</p>
    </li>
  );
}

/** Files that are dropped onto a place; the same can be chosen in it by keyboard. */
function useDroppedFiles(
  place: RefObject<HTMLElement | null>,
  take: (files: readonly File[]) => void,
  setOver: (isOver: boolean) => void,
): void {
  useEffect(() => {
    const element = place.current;
    if (element === null) return;
    const over = (event: DragEvent): void => {
      event.preventDefault();
      setOver(true);
    };
    const leave = (): void => setOver(false);
    const drop = (event: DragEvent): void => {
      event.preventDefault();
      setOver(false);
      take([...(event.dataTransfer?.files ?? [])]);
    };
    element.addEventListener('dragover', over);
    element.addEventListener('dragleave', leave);
    element.addEventListener('drop', drop);
    return () => {
      element.removeEventListener('dragover', over);
      element.removeEventListener('dragleave', leave);
      element.removeEventListener('drop', drop);
    };
  }, [take]);
}

/** Takes certificates that somebody brings, and says whether they are as they were signed. */
export function VerifyPassage() {
  const action = useAction();
  const [checks, setChecks] = useState<readonly CertificateCheck[]>([]);
  const [isOver, setOver] = useState(false);
  const place = useRef<HTMLDivElement>(null);
  const verify = (files: readonly File[]): void => {
    if (files.length === 0) return;
    action.run(async () => {
      const packed = await Promise.all(files.map(async (file) => ({ name: file.name, base64: await base64Of(file) })));
      setChecks(await ask.verify({ files: packed }));
    });
  };
  useDroppedFiles(place, verify, setOver);
  return (
    <div ref={place} class={isOver ? 'drop-place over' : 'drop-place'} data-testid="verify">
      <label class="field">
        <span>Drop certificates here (PDF, or the .json with its .jws), or choose them</span>
        <input
          type="file"
          multiple
          accept=".pdf,.json,.jws"
          onChange={(event) => verify([...(event.currentTarget.files ?? [])])}
        />
      </label>
      {action.isUnderWay && <p role="status">Checking signatures …</p>}
      <Refusal text={action.refusal} />
      <div role="status">
        {checks.length > 0 && (
          <ul class="checked">
            {checks.map((check, place) => (
              // Two files may have one name: they come from two folders.
              <CheckOf key={`${place} ${check.path}`} check={check} />
            ))}
          </ul>
        )}
      </div>
    </div>
  );
}
