/** So many runs in a row are told by their first and last. */
const LEAST_IN_A_ROW = 3;

type Numbered = { readonly id: string; readonly stem: string; readonly digits: string };

function numbered(id: string): Numbered {
  const [, stem = id, digits = ''] = /^(.*?)(\d*)$/.exec(id) ?? [];
  return { id, stem, digits };
}

function follows(before: Numbered, next: Numbered): boolean {
  return (
    before.stem === next.stem &&
    before.digits.length === next.digits.length &&
    Number(next.digits) === Number(before.digits) + 1
  );
}

/**
 * Runs in few words: '2026-11-26-0003 to 0008, 2026-11-27-0001'.
 *
 * @param ids - of runs [in the order in which they are told]
 * @returns the ids, three or more whose numbers follow on one another by their first and last [-]
 */
export function runList(ids: readonly string[]): string {
  const rows: Numbered[][] = [];
  for (const each of ids.map(numbered)) {
    const row = rows.at(-1);
    const before = row?.at(-1);
    if (row !== undefined && before !== undefined && each.digits !== '' && follows(before, each)) row.push(each);
    else rows.push([each]);
  }
  return rows
    .map((row) =>
      row.length < LEAST_IN_A_ROW ? row.map(({ id }) => id).join(', ') : `${row[0]?.id} to ${row.at(-1)?.digits}`,
    )
    .join(', ');
}
