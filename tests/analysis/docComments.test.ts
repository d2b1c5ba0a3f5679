import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath, pathToFileURL } from 'node:url';
import ts from 'typescript';
import { describe, expect, it } from 'vitest';
import { expectRelative } from '../support/expectRelative.ts';

const ANALYSIS = fileURLToPath(new URL('../../analysis/', import.meta.url));

type DocumentedFunction = {
  readonly name: string;
  readonly parameterNames: readonly string[];
  readonly tags: readonly { readonly kind: string; readonly name: string; readonly text: string }[];
};

/** Exported functions of a source text with the tags of their doc comments. */
function documentedFunctions(sourceText: string): DocumentedFunction[] {
  const source = ts.createSourceFile('module.ts', sourceText, ts.ScriptTarget.Latest, true);
  return source.statements
    .filter(ts.isFunctionDeclaration)
    .filter((statement) => statement.modifiers?.some(({ kind }) => kind === ts.SyntaxKind.ExportKeyword))
    .map((statement) => ({
      name: statement.name?.text ?? '',
      parameterNames: statement.parameters.map((parameter) => parameter.name.getText(source)),
      tags: ts.getJSDocTags(statement).map((tag) => ({
        kind: tag.tagName.text,
        name: ts.isJSDocParameterTag(tag) ? tag.name.getText(source) : '',
        text: ts.getTextOfJSDocComment(tag.comment) ?? '',
      })),
    }));
}

/** What a function's doc comment lacks, in words. */
function faultsOf({ name, parameterNames, tags }: DocumentedFunction): string[] {
  return tags.flatMap((tag) => {
    const isParameter = tag.kind === 'param';
    if (!isParameter && tag.kind !== 'returns') return [];
    const faults = /\[[^\]]+\]/.test(tag.text) ? [] : [`${name}: @${tag.kind} ${tag.name} has no [unit]`];
    if (isParameter && !parameterNames.includes(tag.name)) faults.push(`${name}: no parameter is called ${tag.name}`);
    return faults;
  });
}

/** `expression // value: remark` taken apart; the value is a literal. */
function exampleOf(text: string): { expression: string; value: string } | null {
  const match = /^(?<expression>.+?) \/\/ (?<value>'[^']*'|[^\s:]+)/.exec(text);
  const { expression, value } = match?.groups ?? {};
  return expression === undefined || value === undefined ? null : { expression, value };
}

function evaluate(expression: string, scope: Readonly<Record<string, unknown>>): unknown {
  return new Function(...Object.keys(scope), `'use strict'; return (${expression});`)(...Object.values(scope));
}

/** A module's own exports and those of every module of analysis/ that it imports from. */
async function scopeOf(path: string, sourceText: string): Promise<Record<string, unknown>> {
  const imported = [...sourceText.matchAll(/from '(\.[^']+)'/g)].map(([, relative = '']) => relative);
  const urls = [path, ...imported].map((relative) => new URL(relative, pathToFileURL(path)).href);
  const modules: readonly Record<string, unknown>[] = await Promise.all(urls.map((url) => import(url)));
  return Object.assign({}, ...modules);
}

const files = readdirSync(ANALYSIS, { recursive: true, encoding: 'utf8' })
  .filter((path) => path.endsWith('.ts'))
  .sort()
  .map((path) => ({ path, sourceText: readFileSync(ANALYSIS + path, 'utf8') }));

const examples = files.flatMap(({ path, sourceText }) =>
  documentedFunctions(sourceText).flatMap(({ name, tags }) =>
    tags.filter(({ kind }) => kind === 'example').map(({ text }) => ({ path, sourceText, name, text })),
  ),
);

describe('doc comments of analysis/', () => {
  it('give every parameter and every result its unit, and name parameters as they are called', () => {
    const faults = files.flatMap(({ path, sourceText }) =>
      documentedFunctions(sourceText)
        .flatMap(faultsOf)
        .map((fault) => `${path}: ${fault}`),
    );
    expect(files.length).toBeGreaterThan(0);
    expect(faults).toEqual([]);
  });

  it.each(examples)('$path: the example of $name is true', async ({ path, sourceText, text }) => {
    const example = exampleOf(text);
    if (example === null) throw new Error(`expected 'expression // value', got ${JSON.stringify(text)}`);
    const actual = evaluate(example.expression, await scopeOf(ANALYSIS + path, sourceText));
    const value = evaluate(example.value, {});
    if (typeof actual === 'number' && typeof value === 'number' && value !== 0) expectRelative(actual, value, 1e-9);
    else expect(actual).toEqual(value);
  });

  it('are found wanting by this test when a unit, a name or an example is wrong', () => {
    // By hand: the second parameter has no unit, the third name is no parameter, the result has no unit.
    const [wanting] = documentedFunctions(
      '/**\n * @param a - first [m]\n * @param b - second\n * @param c - third [s]\n * @returns sum\n * @example f(1, 2) // 3: by hand\n */\nexport function f(a: number, b: number): number { return a + b; }',
    );
    if (wanting === undefined) throw new Error('the function was not seen');
    expect(faultsOf(wanting)).toEqual([
      'f: @param b has no [unit]',
      'f: no parameter is called c',
      'f: @returns  has no [unit]',
    ]);
    expect(exampleOf('f(1, 2) // 3: by hand')).toEqual({ expression: 'f(1, 2)', value: '3' });
    expect(exampleOf('f(1, 2)')).toBeNull();
    expect(evaluate('f(1, 2)', { f: (a: number, b: number) => a + b })).toBe(3);
  });
});
