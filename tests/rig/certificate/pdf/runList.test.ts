import { expect, it } from 'vitest';
import { runList } from '../../../../rig/certificate/pdf/runList.ts';

it('tells three or more runs that follow on one another by their first and last, and all others one by one', () => {
  expect(runList(['2026-11-26-0003', '2026-11-26-0004', '2026-11-26-0005'])).toBe('2026-11-26-0003 to 0005');
  expect(runList(['2026-11-26-0003', '2026-11-26-0004'])).toBe('2026-11-26-0003, 2026-11-26-0004');
  expect(runList(['2026-11-26-0009', '2026-11-26-0010', '2026-11-26-0011', '2026-11-27-0001'])).toBe(
    '2026-11-26-0009 to 0011, 2026-11-27-0001',
  );
  expect(runList(['a-9', 'a-10', 'a-11', 'b-12'])).toBe('a-9, a-10, a-11, b-12');
  expect(runList(['harbour', 'harbour'])).toBe('harbour, harbour');
  expect(runList([])).toBe('');
});
