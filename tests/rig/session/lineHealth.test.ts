import { describe, expect, it } from 'vitest';
import type { DecodedLine } from '../../../rig/decode/lineDecoder.ts';
import { LineHealth } from '../../../rig/session/lineHealth.ts';

const BAD: DecodedLine = { kind: 'bad', badKind: 'checksum' };
const NOTE: DecodedLine = { kind: 'note', text: 'hello', practice: null };

function line(monotonicUs: number) {
  return { monotonicUs, bytes: '', fault: null };
}

describe('the health of a line', () => {
  it('counts lines over the last two seconds', () => {
    const health = new LineHealth();
    for (let index = 0; index < 100; index += 1) health.received(line(index * 1e4), NOTE);
    // By hand: 100 lines in the second before 1 s, none after: 50 a second over two, none at 4 s.
    expect(health.linesPerS(1e6)).toBe(50);
    expect(health.linesPerS(4e6)).toBe(0);
  });

  it('counts bad lines by kind, but not the tail that the first line after an opening may be', () => {
    const health = new LineHealth();
    health.received(line(0), BAD);
    expect(health.badLineCounts()).toEqual({});
    health.received(line(1), BAD);
    health.received(line(2), NOTE);
    health.received(line(3), { kind: 'reconnected' });
    health.received(line(4), BAD);
    health.received(line(5), BAD);
    expect(health.badLineCounts()).toEqual({ checksum: 2 });
  });
});
