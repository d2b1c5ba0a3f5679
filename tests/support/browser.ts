import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { brotliDecompressSync } from 'node:zlib';
import npmChromium from '@sparticuz/chromium';
import { type Browser, chromium } from 'playwright-core';

const FLAGS: readonly string[] = [
  '--headless',
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

const INSTALLED_PATHS: readonly string[] = [
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/usr/bin/google-chrome-stable',
  '/opt/google/chrome/chrome',
  '/snap/bin/chromium',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
];

type Candidate = { readonly name: string; readonly launch: () => Promise<Browser> };

function launchAt(executablePath: string, libraryPath?: string): Promise<Browser> {
  return chromium.launch({
    executablePath,
    args: [...FLAGS],
    env: {
      ...process.env,
      // In the POSIX locale the browser speaks a language, en-US@posix, that no number format takes.
      LANG: 'en_US.UTF-8',
      LC_ALL: 'en_US.UTF-8',
      ...(libraryPath === undefined ? {} : { LD_LIBRARY_PATH: libraryPath }),
    },
  });
}

/** The shared libraries (nss, nspr, expat) that the npm package carries for machines that have none. */
function unpackLibraries(): string {
  const packageEntry = createRequire(import.meta.url).resolve('@sparticuz/chromium');
  const archive = join(dirname(packageEntry), '..', '..', 'bin', 'al2023.tar.br');
  const folder = mkdtempSync(join(tmpdir(), 'slipwright-browser-'));
  const unpacked = spawnSync('tar', ['-x', '-C', folder], { input: brotliDecompressSync(readFileSync(archive)) });
  if (unpacked.status !== 0) throw new Error(`tar could not unpack ${archive}: ${unpacked.stderr}`);
  return join(folder, 'lib');
}

/** A named browser (SLIPWRIGHT_BROWSER) alone, else the installed ones, else the one inside the npm package. */
function candidates(): readonly Candidate[] {
  const named = process.env.SLIPWRIGHT_BROWSER;
  const fromPackage: Candidate[] = [
    { name: '@sparticuz/chromium', launch: async () => launchAt(await npmChromium.executablePath()) },
    {
      name: '@sparticuz/chromium with its own libraries',
      launch: async () => launchAt(await npmChromium.executablePath(), unpackLibraries()),
    },
  ];
  if (named === 'npm') return fromPackage;
  if (named !== undefined && named !== '') return [{ name: named, launch: () => launchAt(named) }];
  const installed = INSTALLED_PATHS.filter((path) => existsSync(path)).map(
    (path): Candidate => ({ name: path, launch: () => launchAt(path) }),
  );
  return [...installed, ...fromPackage];
}

/**
 * Starts a headless Chromium or Chrome for a test. SLIPWRIGHT_BROWSER names another one by its path, or 'npm' for the
 * one inside the npm package.
 *
 * @throws Error saying what was tried and what to install, where none runs
 */
export async function launchBrowser(): Promise<Browser> {
  const failures: string[] = [];
  for (const { name, launch } of candidates()) {
    try {
      return await launch();
    } catch (error) {
      const why = error instanceof Error ? error.message : String(error);
      failures.push(`${name}: ${why.split('\n').slice(0, 4).join(' ')}`);
    }
  }
  throw new Error(
    `No browser runs here. Install one (Debian, Ubuntu: apt-get install chromium; elsewhere Google Chrome), or name ` +
      `one in SLIPWRIGHT_BROWSER. Tried:\n${failures.join('\n')}`,
  );
}
