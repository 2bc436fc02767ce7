import { readFileSync, writeFileSync } from 'node:fs';
import type { Browser } from '@playwright/test';

/** Watches how much memory the pages of a browser take at most. */
export interface MemoryWatch {
  /** How far the fullest page has risen above its own beginning, in MB; null: this machine does not tell. */
  risenMb(): Promise<number | null>;
}

/**
 * Begins to watch the memory that the processes of the pages have in use: all of it, also pictures
 * that lie outside of what scripts see. Linux keeps the most by itself, from this moment on.
 */
export async function watchMemory(browser: Browser | null): Promise<MemoryWatch> {
  const start = new Map<number, number>();
  for (const pid of await pagesOf(browser)) {
    const bytes = bytesOf(pid, 'VmRSS');
    if (bytes !== null && forgetMost(pid)) start.set(pid, bytes);
  }
  return {
    async risenMb() {
      const risen = [...start].flatMap(([pid, before]) => {
        const most = bytesOf(pid, 'VmHWM');
        return most === null ? [] : [(most - before) / 1_000_000];
      });
      return risen.length > 0 ? Math.max(...risen) : null;
    },
  };
}

/** The processes that pages run in. */
async function pagesOf(browser: Browser | null): Promise<number[]> {
  const told = await browser?.newBrowserCDPSession();
  const { processInfo = [] } = (await told?.send('SystemInfo.getProcessInfo')) ?? {};
  await told?.detach();
  return processInfo.filter(({ type }) => type === 'renderer').map(({ id }) => id);
}

function bytesOf(pid: number, field: 'VmRSS' | 'VmHWM'): number | null {
  try {
    const status = readFileSync(`/proc/${pid}/status`, 'utf8');
    const kb = new RegExp(`^${field}:\\s+(\\d+) kB`, 'm').exec(status)?.[1];
    return kb === undefined ? null : Number(kb) * 1024;
  } catch {
    return null;
  }
}

/** Lets the most of a process begin anew at what it has now (Linux, proc(5): clear_refs, 5). */
function forgetMost(pid: number): boolean {
  try {
    writeFileSync(`/proc/${pid}/clear_refs`, '5');
    return true;
  } catch {
    return false;
  }
}
