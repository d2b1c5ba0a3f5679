import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type PDFDocument from 'pdfkit';
import type { TextStyle } from './style.ts';
import { woffToSfnt } from './woffToSfnt.ts';

const resolve = createRequire(import.meta.url).resolve;

function file(script: 'latin' | 'latin-ext' | 'greek', weight: 400 | 600): string {
  return resolve(`@fontsource/source-sans-3/files/source-sans-3-${script}-${weight}-normal.woff`);
}

/** Source Sans 3 comes cut by script: a name for each part, by weight. */
const FONT_FILES = {
  'regular latin': file('latin', 400),
  'regular latin-ext': file('latin-ext', 400),
  'regular greek': file('greek', 400),
  'semibold latin': file('latin', 600),
  'semibold latin-ext': file('latin-ext', 600),
  'semibold greek': file('greek', 600),
} as const;
export type FontName = keyof typeof FONT_FILES;

const unpacked = new Map<string, Buffer>();

function unpackedFont(path: string): Buffer {
  const font = unpacked.get(path) ?? woffToSfnt(readFileSync(path));
  unpacked.set(path, font);
  return font;
}

export function registerFonts(document: typeof PDFDocument): void {
  for (const [name, path] of Object.entries(FONT_FILES)) document.registerFont(name, unpackedFont(path));
}

/** Runs of one script; ranges are those of the font's own parts. */
const SCRIPTS = /([\u0370-\u03ff]+)|([\u0100-\u02ba\u1e00-\u1eff]+)|([^\u0370-\u03ff\u0100-\u02ba\u1e00-\u1eff]+)/gu;

/** Text in pieces, each with the font that holds its letters. */
export function runsByFont(text: string, weight: TextStyle['weight']): readonly { text: string; font: FontName }[] {
  return [...text.matchAll(SCRIPTS)].map(([run, greek, extended]) => ({
    text: run,
    font: greek !== undefined ? `${weight} greek` : extended !== undefined ? `${weight} latin-ext` : `${weight} latin`,
  }));
}
