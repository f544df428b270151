// Without dependencies: the set-up script runs it before any package is installed.
import { accessSync, constants } from 'node:fs';
import { delimiter, join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** Where the set-up script unpacks one that is not on this machine. */
export const UNPACKED = fileURLToPath(new URL('../../node_modules/.cache/nats-server/', import.meta.url));

/**
 * The `nats-server` to test with: `NATS_SERVER_PATH` where it is set, else the first on the search path, else the one that
 * was unpacked; null where there is none.
 */
export function findNatsServer(env = process.env) {
  const named = env.NATS_SERVER_PATH;
  if (named) return canRun(named) ? named : null;
  const folders = [
    ...(env.PATH ?? '').split(delimiter).filter((folder) => folder !== ''),
    '/usr/sbin',
    '/usr/local/bin',
    '/opt/homebrew/bin',
    join(UNPACKED, 'usr/sbin'),
  ];
  const name = process.platform === 'win32' ? 'nats-server.exe' : 'nats-server';
  return folders.map((folder) => join(folder, name)).find(canRun) ?? null;
}

/** @param {string} path */
function canRun(path) {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}
