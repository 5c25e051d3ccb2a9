import { createHash } from 'node:crypto';
import { constants } from 'node:fs';
import { lstat, open } from 'node:fs/promises';

export type PlainFile =
  | { readonly kind: 'file'; readonly bytes: Uint8Array; readonly etag: string }
  | { readonly kind: 'absent' }
  | { readonly kind: 'not a file' }
  | { readonly kind: 'too large' };

/** Reads a file that is neither a link nor anything else than a file. */
export async function readPlainFile(path: string, mostBytes: number): Promise<PlainFile> {
  const found = await lstatOrAbsent(path);
  if (found === undefined) return { kind: 'absent' };
  if (!found.isFile()) return { kind: 'not a file' };
  try {
    // It may have been swapped since: no link is followed, and nothing that is opened is waited for.
    const handle = await open(path, constants.O_RDONLY | constants.O_NOFOLLOW | constants.O_NONBLOCK);
    try {
      const stat = await handle.stat();
      if (!stat.isFile()) return { kind: 'not a file' };
      if (stat.size > mostBytes) return { kind: 'too large' };
      const bytes = await handle.readFile();
      return { kind: 'file', bytes, etag: etagOf(bytes) };
    } finally {
      await handle.close();
    }
  } catch (error) {
    if (isCode(error, 'ENOENT')) return { kind: 'absent' };
    if (isCode(error, 'ELOOP')) return { kind: 'not a file' };
    throw error;
  }
}

/** A strong entity tag of bytes, quotes included. */
export function etagOf(bytes: Uint8Array | string): string {
  return `"${createHash('sha256').update(bytes).digest('hex').slice(0, 32)}"`;
}

export function isCode(error: unknown, code: string): boolean {
  return error instanceof Error && 'code' in error && error.code === code;
}

async function lstatOrAbsent(path: string) {
  try {
    return await lstat(path);
  } catch (error) {
    if (isCode(error, 'ENOENT')) return undefined;
    throw error;
  }
}
