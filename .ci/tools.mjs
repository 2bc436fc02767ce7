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

/** What the checks run beside Node, by the names of Debian's packages. */
const programs = {
  chromium: '/usr/bin/chromium',
  'firefox-esr': '/usr/bin/firefox-esr',
  strace: '/usr/bin/strace',
  gnumeric: '/usr/bin/ssconvert',
  python3: '/usr/bin/python3',
};

/**
 * Installs the programs that the checks need where that can be done, else says what is missing: the
 * drills that need it then fail.
 */
export function installPrograms() {
  const missing = () => Object.keys(programs).filter((name) => !existsSync(programs[name]));
  if (missing().length === 0) return;
  const isDebianRoot = process.getuid?.() === 0 && existsSync('/usr/bin/apt-get');
  if (isDebianRoot) {
    console.log(`Installing ${missing().join(', ')} by apt-get ...`);
    const quiet = { DEBIAN_FRONTEND: 'noninteractive' };
    run('apt-get', ['update', '-qq']);
    // One by one: a package that is not to be had takes no other along.
    for (const name of missing()) {
      // The fonts of the screens come with what Chromium recommends; the others are run unseen.
      const alone = name === 'chromium' ? [] : ['--no-install-recommends'];
      run('apt-get', ['install', '-y', '-qq', ...alone, name], quiet);
    }
  }
  const left = missing().join(' ');
  if (left) console.error(`Not installed: ${left} (Debian: sudo apt-get install ${left})`);
}

/** The path of a Chromium, or null; CHROMIUM names one that lies elsewhere. */
export function findChromium() {
  const known = [process.env.CHROMIUM, programs.chromium, '/usr/bin/chromium-browser'];
  return known.find((path) => path && existsSync(path)) ?? null;
}
