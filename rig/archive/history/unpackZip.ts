import { createWriteStream, mkdirSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { pipeline } from 'node:stream/promises';
import yauzl, { type Entry, type ZipFile } from 'yauzl';
import { messageOf } from '../../errors.ts';
import { TransferError } from './transferError.ts';

/** What a zip may hold: no more files, no more bytes, and none that swells more than journals and certificates do. */
export type UnpackLimits = { readonly files: number; readonly bytes: number; readonly swelling: number };

/** Journals of a bench swell six- to tenfold; deflate can do a thousandfold. */
export const UNPACK_LIMITS: UnpackLimits = { files: 100_000, bytes: 20e9, swelling: 100 };

/** A file as small as this may swell as it likes [byte]. */
const SMALL_BYTES = 1_000_000;

const SYMBOLIC_LINK = 0o120000;
const FILE_TYPE = 0o170000;

/**
 * Unpacks a zip that somebody brought into an empty folder. Nothing in it is believed: no name but those that are allowed, so
 * that none leads out of the folder; no link; no name twice; no more bytes than it says and than the limits allow.
 *
 * @param path - the zip [-]
 * @param folder - an empty folder [-]
 * @param isAllowed - which names may stand in it, with '/' between folders [-]
 * @param limits - how much it may hold [-]
 * @throws TransferError naming the zip and the entry that is refused
 */
export async function unpackZip(
  path: string,
  folder: string,
  isAllowed: (name: string) => boolean,
  limits: UnpackLimits = UNPACK_LIMITS,
): Promise<void> {
  let zip: ZipFile;
  try {
    zip = await yauzl.openPromise(path, { strictFileNames: true, validateEntrySizes: true, autoClose: false });
  } catch (cause) {
    throw new TransferError(path, `is no zip that can be read (${messageOf(cause)})`, { cause });
  }
  try {
    await unpackEntries(zip, path, folder, isAllowed, limits);
  } catch (cause) {
    if (cause instanceof TransferError) throw cause;
    throw new TransferError(path, `cannot be unpacked (${messageOf(cause)})`, { cause });
  } finally {
    zip.close();
  }
}

async function unpackEntries(
  zip: ZipFile,
  path: string,
  folder: string,
  isAllowed: (name: string) => boolean,
  limits: UnpackLimits,
): Promise<void> {
  if (zip.entryCount > limits.files) {
    throw new TransferError(path, `holds ${zip.entryCount} files, and ${limits.files} are the most that is read`);
  }
  const seen = new Set<string>();
  let bytes = 0;
  for await (const entry of zip.eachEntry()) {
    const name = entry.fileName;
    bytes += entry.uncompressedSize;
    const refusal = refusalOf(entry, seen, bytes, isAllowed, limits);
    if (refusal !== null) throw new TransferError(path, `${JSON.stringify(name)} ${refusal}`);
    seen.add(name);
    const target = join(folder, name);
    mkdirSync(dirname(target), { recursive: true });
    // Sizes are held against what really comes out.
    await pipeline(await zip.openReadStreamPromise(entry), createWriteStream(target, { flags: 'wx' }));
  }
}

function refusalOf(
  entry: Entry,
  seen: ReadonlySet<string>,
  bytes: number,
  isAllowed: (name: string) => boolean,
  { bytes: mostBytes, swelling }: UnpackLimits,
): string | null {
  const { fileName, uncompressedSize, compressedSize, externalFileAttributes } = entry;
  if (!isAllowed(fileName)) return 'is no file of a pump history';
  if (seen.has(fileName)) return 'stands in it twice';
  if (((externalFileAttributes >>> 16) & FILE_TYPE) === SYMBOLIC_LINK) return 'is a link';
  if (entry.isEncrypted()) return 'is encrypted';
  if (bytes > mostBytes) return `brings it over ${mostBytes} bytes, which are the most that is read`;
  if (uncompressedSize > SMALL_BYTES && uncompressedSize > swelling * compressedSize) {
    return `swells from ${compressedSize} to ${uncompressedSize} bytes, more than ${swelling}-fold`;
  }
  return null;
}
