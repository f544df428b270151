/**
 * Gets a fresh clone ready, so that one command is enough: `node tests/support/setup.mjs [packages] [chromium] [nats-server]`.
 * Without dependencies, because it runs before any package is installed.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { findChromium } from './find-chromium.mjs';
import { findNatsServer, UNPACKED } from './find-nats-server.mjs';

const root = fileURLToPath(new URL('../../', import.meta.url));

for (const need of process.argv.slice(2)) {
  if (need === 'packages') installPackages();
  else if (need === 'chromium') installChromium();
  else if (need === 'nats-server') unpackNatsServer();
  else stop(`setup.mjs knows "packages", "chromium" and "nats-server", not "${need}".`);
}

function installPackages() {
  const wanted = lockedVersions('package-lock.json');
  const present = lockedVersions('node_modules/.package-lock.json');
  if (wanted === null) stop('package-lock.json is missing or cannot be read. Take it from the repository again.');
  const stale = present === null || [...wanted].some(([path, entry]) => !isThere(entry, present.get(path)));
  if (!stale) return;
  console.log('Installing the packages of package-lock.json …');
  // npm is a script of its own on Windows, which only a shell starts.
  const { status } = spawnSync('npm', ['ci'], { cwd: root, stdio: 'inherit', shell: process.platform === 'win32' });
  if (status !== 0) stop('npm ci failed: see above. It needs the npm registry, or a mirror of it set in .npmrc.');
}

/**
 * Package paths and versions of a lock file; npm keeps one of what it has installed inside node_modules. The
 * versions are compared and not the ages, because a checkout gives every file a new age.
 *
 * @param {string} file
 * @returns {Map<string, { version: string, optional: boolean }> | null}
 */
function lockedVersions(file) {
  if (!existsSync(join(root, file))) return null;
  try {
    const { packages } = JSON.parse(readFileSync(join(root, file), 'utf8'));
    return new Map(
      Object.entries(packages)
        .filter(([path]) => path !== '')
        .map(([path, entry]) => [path, { version: entry.version, optional: entry.optional === true }]),
    );
  } catch {
    return null;
  }
}

/**
 * An optional package is missing where it is for another system.
 *
 * @param {{ version: string, optional: boolean }} wanted
 * @param {{ version: string } | undefined} present
 */
function isThere(wanted, present) {
  return present === undefined ? wanted.optional : present.version === wanted.version;
}

function installChromium() {
  if (findChromium() !== null) return;
  if (process.env.CHROMIUM_PATH) {
    stop(`CHROMIUM_PATH names ${process.env.CHROMIUM_PATH}, which cannot be run. Mend it or unset it.`);
  }
  const asRoot = process.platform === 'linux' && existsSync('/usr/bin/apt-get') ? rootPrefix() : null;
  if (asRoot === null) stop(howToInstall());
  console.log('Installing Chromium with apt-get for the browser tests …');
  run(asRoot, ['apt-get', 'update']);
  run(asRoot, ['apt-get', 'install', '-y', '--no-install-recommends', 'chromium']);
  if (findChromium() === null) stop(howToInstall());
}

/**
 * For the tests of the cluster. Debian's package would start a service as it is installed, so it is only unpacked, beside
 * the packages; that needs no root. Where it cannot be had, the other tests run all the same, and those of the cluster
 * fail and say why.
 */
function unpackNatsServer() {
  if (findNatsServer() !== null || process.env.NATS_SERVER_PATH) return;
  if (process.platform !== 'linux' || !existsSync('/usr/bin/apt-get')) return;
  console.log('Getting nats-server with apt-get for the tests of the cluster …');
  mkdirSync(UNPACKED, { recursive: true });
  /** @param {'ignore' | 'inherit'} stdio */
  const download = (stdio) => spawnSync('apt-get', ['download', 'nats-server'], { cwd: UNPACKED, stdio }).status === 0;
  if (!download('ignore')) {
    const asRoot = rootPrefix();
    const [program = '', ...args] = [...(asRoot ?? []), 'apt-get', 'update'];
    if (asRoot !== null) spawnSync(program, args, { stdio: 'inherit' });
    download('inherit');
  }
  const file = readdirSync(UNPACKED).find((name) => name.endsWith('.deb'));
  if (file !== undefined) spawnSync('dpkg-deb', ['-x', file, '.'], { cwd: UNPACKED, stdio: 'inherit' });
  if (findNatsServer() === null)
    console.error(
      'nats-server could not be had: the tests of the cluster will fail. Install it, or set NATS_SERVER_PATH to one that is there.',
    );
}

/**
 * What to put before a command to run it as root: nothing for root itself, sudo where it asks for no password.
 *
 * @returns {string[] | null}
 */
function rootPrefix() {
  if (process.getuid?.() === 0) return [];
  const sudo = spawnSync('sudo', ['-n', 'true'], { stdio: 'ignore' });
  return sudo.status === 0 ? ['sudo', '-n'] : null;
}

/**
 * @param {string[]} prefix
 * @param {string[]} command
 */
function run(prefix, command) {
  const [program = '', ...args] = [...prefix, ...command];
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  const { status } = spawnSync(program, args, { stdio: 'inherit', env });
  if (status !== 0) stop(`"${command.join(' ')}" failed: see above. ${howToInstall()}`);
}

function howToInstall() {
  return (
    'The browser tests need a Chromium. Install one (Debian: apt-get install chromium; elsewhere Chromium or ' +
    'Google Chrome in its usual place), or set CHROMIUM_PATH to one that is there, and run npm test again.'
  );
}

/**
 * @param {string} message
 * @returns {never}
 */
function stop(message) {
  console.error(message);
  process.exit(1);
}
