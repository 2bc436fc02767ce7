// What start and check share: only node's own modules, so that they run on a fresh clone.
import { spawnSync } from 'node:child_process';
import { existsSync, statSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/** Goes to the top of the repository, from wherever it was called. */
export function goHome() {
  process.chdir(fileURLToPath(new URL('..', import.meta.url)));
}

/** Runs a command in the open; returns its exit code. */
export function run(command, args, env = {}) {
  const done = spawnSync(command, args, { stdio: 'inherit', env: { ...process.env, ...env } });
  return done.status ?? 1;
}

/** Installs the packages of the lock file where they are missing or older than it. */
export function installPackages() {
  const kept = 'node_modules/.package-lock.json';
  const isFresh =
    existsSync(kept) && statSync(kept).mtimeMs >= statSync('package-lock.json').mtimeMs - 1_000;
  if (isFresh) return;
  console.log('Installing the packages of package-lock.json ...');
  const code = run('npm', ['ci', '--ignore-scripts', '--no-audit', '--no-fund']);
  if (code !== 0) {
    console.error('The packages could not be installed: npm ci --ignore-scripts');
    process.exit(1);
  }
}

/** The path of a Chromium; installs Debian's where it can, else says which command to run. */
export function findChromium() {
  const known = [process.env.CHROMIUM, '/usr/bin/chromium', '/usr/bin/chromium-browser'];
  const found = known.find((path) => path && existsSync(path));
  if (found) return found;
  const isDebianRoot = process.getuid?.() === 0 && existsSync('/usr/bin/apt-get');
  if (isDebianRoot) {
    console.log('Installing Chromium by apt-get ...');
    run('apt-get', ['update', '-qq']);
    run('apt-get', ['install', '-y', '-qq', 'chromium'], { DEBIAN_FRONTEND: 'noninteractive' });
    if (existsSync('/usr/bin/chromium')) return '/usr/bin/chromium';
  }
  console.error(
    'There is no Chromium here. Install one (Debian: sudo apt-get install chromium) or set CHROMIUM to its path.',
  );
  return null;
}
