/** The system's Chromium, quiet. */
export const chromiumPath = process.env.CHROMIUM ?? '/usr/bin/chromium';

/** The two ways in which Chromium stores a database: the later one comes with newer profiles. */
export const backends = {
  'first backend': [],
  'second backend': ['--enable-features=IdbSqliteBackingStore,IdbSqliteOnDiskRollout'],
} as const;

/** A browser that talks to nobody but the page's host. */
export const quietArgs = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-dev-shm-usage',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];
