import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium, expect, type Page } from '@playwright/test';
import { backends, chromiumPath, quietArgs } from './backends.ts';
import { figure } from './figure.ts';
import { firstSession } from './hands.ts';
import { publishStore, type Store } from './own-store.ts';
import { processesOf } from './processes.ts';
import { type Site, test } from './site.ts';

// What a power cut leaves is what the disk was told to flush: each tick must come after such a call
// on the files of the database. The system is asked by strace, which needs ptrace.

const shots = 50;
const slow = { timeout: 60_000 };

/** One call that flushes a file, at a time in ms. */
interface Flush {
  at: number;
  path: string;
}

/** Writes down every flush of these processes and of all they start. Null: ptrace is not allowed here. */
async function listen(pids: number[], file: string): Promise<ChildProcess | null> {
  const whom = pids.flatMap((pid) => ['-p', `${pid}`]);
  const what = ['-f', '-y', '-ttt', '-e', 'trace=fsync,fdatasync', '-e', 'signal=none', '-o', file];
  const strace = spawn('strace', [...what, ...whom], { stdio: ['ignore', 'ignore', 'pipe'] });
  let said = '';
  strace.stderr?.on('data', (text) => {
    said += text;
  });
  const isAttached = () => said.includes('attached');
  await expect.poll(() => isAttached() || strace.exitCode !== null, slow).toBe(true);
  if (isAttached()) return strace;
  if (/not permitted/i.test(said)) return null;
  throw new Error(`strace: ${said}`);
}

function flushesIn(file: string): Flush[] {
  const call = /^\d+\s+(\d+\.\d+) (?:fsync|fdatasync)\(\d+<([^>]*)>/gm;
  return [...readFileSync(file, 'utf8').matchAll(call)].map(([, at, path]) => ({
    at: Number(at) * 1_000,
    path: path ?? '',
  }));
}

/** Saves so many lines through the app's own store, beside the app; when each began and was ticked, in ms. */
async function saveSome(page: Page, storeUrl: string): Promise<[number, number][]> {
  return await page.evaluate(
    async ({ url, count }) => {
      const { joinWindows, openBook, runningEntries, logEntry } = (await import(url)) as Store;
      joinWindows('warmshot');
      const book = await openBook('warmshot');
      const session = (await runningEntries(book))?.[0]?.sessionId;
      if (!session) throw new Error('No session runs.');
      const now = () => performance.timeOrigin + performance.now();
      const spans: [number, number][] = [];
      for (let line = 1; line <= count; line += 1) {
        const begun = now();
        const said = { kind: 'noted', text: `Line ${line}` } as const;
        await logEntry(book, session, said, Date.now() as never);
        spans.push([begun, now()]);
        // The next one comes when the second copy has said that it holds this one.
        const isCopied = () =>
          localStorage.getItem('warmshot-kept')?.includes(`"entries":${line + 3},`);
        while (!isCopied()) await new Promise((resolve) => setTimeout(resolve, 10));
      }
      return spans;
    },
    { url: storeUrl, count: shots },
  );
}

async function measure(site: Site, flags: readonly string[], profile: string) {
  const storeUrl = await publishStore(site);
  const context = await chromium.launchPersistentContext(profile, {
    executablePath: chromiumPath,
    args: [...quietArgs, ...flags],
    viewport: { width: 360, height: 740 },
    baseURL: site.url,
  });
  const page = context.pages()[0] ?? (await context.newPage());
  await page.goto(site.url);
  await firstSession(page);
  const file = join(profile, 'flushes.txt');
  const strace = await listen(processesOf(profile), file);
  const spans = strace && (await saveSome(page, storeUrl));
  if (strace) {
    strace.kill('SIGINT');
    await once(strace, 'exit');
  }
  await context.close();
  return spans && { spans, flushes: flushesIn(file) };
}

for (const [backend, flags] of Object.entries(backends)) {
  test(`every tick comes after a flush of the database to the disk, ${backend}`, async ({
    site,
  }) => {
    test.setTimeout(180_000);
    expect(existsSync('/usr/bin/strace'), 'strace is there').toBe(true);
    const profile = mkdtempSync(join(tmpdir(), 'warmshot-flush-'));
    const found = await measure(site, flags, profile);
    rmSync(profile, { recursive: true, force: true });
    const row = {
      drill: `Power cut: every tick is after a flush, ${backend}`,
      required: `database ${shots}/${shots} ticks, second copy ${shots}/${shots} lines`,
    };
    if (!found) {
      figure({ ...row, reached: 'not measured: no ptrace here', isMet: true, isOpen: true });
      return;
    }
    const { spans, flushes } = found;
    const database = flushes.filter(({ path }) => path.includes('IndexedDB'));
    const copy = flushes.filter(({ path }) => path.includes('/File System/'));
    const flushed = spans.filter(([begun, ticked]) =>
      database.some(({ at }) => at >= begun && at <= ticked),
    ).length;
    const followed = spans.filter(([, ticked], line) => {
      const next = spans[line + 1]?.[1] ?? Number.POSITIVE_INFINITY;
      return copy.some(({ at }) => at >= ticked && at < next);
    }).length;
    figure({
      ...row,
      reached: `database ${flushed}/${shots} ticks, second copy ${followed}/${shots} lines (${database.length} and ${copy.length} calls)`,
      isMet: flushed === shots && followed === shots,
    });
    expect({ flushed, followed }).toEqual({ flushed: shots, followed: shots });
  });
}
