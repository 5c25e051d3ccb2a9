import { link, open, rename, rm } from 'node:fs/promises';
import { dirname } from 'node:path';
import { isCode } from './plain-file.js';

/**
 * Replaces or creates a file so that, whenever the machine or the process stops, the old one or the new one is
 * there, whole: a temporary file beside it is written and flushed, then takes the name, then the folder is flushed.
 *
 * @param temporary a path in the same folder that nothing else uses
 */
export async function writeAtomically(path: string, temporary: string, bytes: Uint8Array): Promise<void> {
  await writeFlushed(temporary, bytes);
  try {
    await rename(temporary, path);
  } catch (error) {
    await rm(temporary, { force: true });
    throw error;
  }
  await flushFolder(dirname(path));
}

/** The same for a file that must not be there yet. Returns false, and changes nothing, where it is. */
export async function createAtomically(path: string, temporary: string, bytes: Uint8Array): Promise<boolean> {
  await writeFlushed(temporary, bytes);
  try {
    await link(temporary, path);
  } catch (error) {
    if (isCode(error, 'EEXIST')) return false;
    throw error;
  } finally {
    await rm(temporary, { force: true });
  }
  await flushFolder(dirname(path));
  return true;
}

/** Makes what happened to a folder's names last. */
export async function flushFolder(path: string): Promise<void> {
  const handle = await open(path, 'r');
  try {
    await handle.sync();
  } finally {
    await handle.close();
  }
}

async function writeFlushed(path: string, bytes: Uint8Array): Promise<void> {
  const handle = await open(path, 'wx', 0o644);
  try {
    await handle.writeFile(bytes);
    await handle.sync();
  } catch (error) {
    await rm(path, { force: true });
    throw error;
  } finally {
    await handle.close();
  }
}
