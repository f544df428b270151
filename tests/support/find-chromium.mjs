// Without dependencies: the set-up script runs it before any package is installed.
import { accessSync, constants } from 'node:fs';
import { homedir } from 'node:os';
import { delimiter, join } from 'node:path';

const NAMES = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable'];

/** The browser to test with: `CHROMIUM_PATH` where it is set, else the first one in a usual place; null where there is none. */
export function findChromium(env = process.env, platform = process.platform) {
  const named = env.CHROMIUM_PATH;
  if (named) return canRun(named) ? named : null;
  return usualPlaces(env, platform).find(canRun) ?? null;
}

/**
 * @param {NodeJS.ProcessEnv} env
 * @param {string} platform
 */
function usualPlaces(env, platform) {
  if (platform === 'darwin') {
    return ['/Applications', join(homedir(), 'Applications')].flatMap((folder) => [
      `${folder}/Chromium.app/Contents/MacOS/Chromium`,
      `${folder}/Google Chrome.app/Contents/MacOS/Google Chrome`,
    ]);
  }
  if (platform === 'win32') {
    return [env.PROGRAMFILES, env['PROGRAMFILES(X86)'], env.LOCALAPPDATA].flatMap((folder) =>
      folder ? [join(folder, 'Chromium/Application/chrome.exe'), join(folder, 'Google/Chrome/Application/chrome.exe')] : [],
    );
  }
  const folders = ['/usr/bin', ...(env.PATH ?? '').split(delimiter).filter((folder) => folder !== '')];
  return NAMES.flatMap((name) => folders.map((folder) => join(folder, name)));
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
