/** What a record is made of before it is read by its schema. */
type Leaf = string | number | boolean | null;
export type Tree = Leaf | readonly Tree[] | { readonly [key: string]: Tree };

function branch(entries: readonly (readonly [path: readonly string[], leaf: Tree])[]): Tree {
  const keys = [...new Set(entries.map(([path]) => path[0] ?? ''))];
  const grown = keys.map((key): readonly [string, Tree] => {
    const below = entries.filter(([path]) => path[0] === key);
    const leaf = below.find(([path]) => path.length === 1);
    if (leaf !== undefined) return [key, leaf[1]];
    return [key, branch(below.map(([path, value]) => [path.slice(1), value]))];
  });
  // Numbered from nought: a list.
  if (keys.length > 0 && keys.every((key) => /^\d+$/.test(key))) return grown.map(([, value]) => value);
  return Object.fromEntries(grown);
}

/** A record from the fields of a form, each named by its path: 'geometry.tipDiameterM.value'. */
export function nested(fields: Readonly<Record<string, Tree>>): Tree {
  return branch(Object.entries(fields).map(([path, leaf]) => [path.split('.'), leaf]));
}

/** The value at a path of a record; undefined where there is none. */
export function leafAt(record: unknown, path: string): unknown {
  return path
    .split('.')
    .reduce<unknown>((at, key) => (typeof at === 'object' && at !== null ? Reflect.get(at, key) : undefined), record);
}
