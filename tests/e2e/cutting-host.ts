import { readdirSync, readFileSync } from 'node:fs';
import { createServer, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { extname, join, relative } from 'node:path';

const kinds: Record<string, string> = {
  '.html': 'text/html',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.webmanifest': 'application/manifest+json',
};

/** How a host fails: the line breaks in the middle of a file, or it answers with an error. */
export type Failing = 'breaks off' | 'answers 500';

/** A host of the app that fails for its worker after so many bytes. */
export interface CuttingHost {
  url: string;
  /** All bytes that the worker fetches to store the app. */
  total: number;
  /** Fails from the worker's byte `after` on, in this way; for the page, too. Infinity: never. */
  failAfter(after: number, how?: Failing): void;
  /** Whether it has failed somebody since it was told to. */
  hasFailed(): boolean;
  close(): void;
}

/** Serves a build under /a/b/ of a port of its own. */
export async function cuttingHost(folder: string): Promise<CuttingHost> {
  const files = new Map(
    readdirSync(folder, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map((entry) => join(entry.parentPath, entry.name))
      .map((path) => [`/a/b/${relative(folder, path)}`, readFileSync(path)]),
  );
  let left = Number.POSITIVE_INFINITY;
  let failing: Failing = 'breaks off';
  let hasFailed = false;
  const fail = (response: ServerResponse, head: Buffer) => {
    left = 0;
    hasFailed = true;
    if (failing === 'answers 500') response.writeHead(500).end();
    else if (head.length > 0) response.write(head, () => response.destroy());
    else response.destroy();
  };
  const server = createServer((request, response) => {
    const path = (request.url ?? '').replace(/[?].*/, '').replace(/[/]$/, '/index.html');
    const bytes = files.get(path);
    if (!bytes) return response.writeHead(404).end();
    const isWorkers = request.headers.referer?.includes('/sw.js') ?? false;
    response.setHeader('Content-Type', kinds[extname(path)] ?? 'application/octet-stream');
    response.setHeader('Content-Length', bytes.length);
    const wanted = isWorkers ? bytes.length : 0;
    if (left <= 0 || wanted > left) return fail(response, bytes.subarray(0, Math.max(0, left)));
    left -= wanted;
    response.end(bytes);
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const { port } = server.address() as AddressInfo;
  const stored = [...files].filter(([path]) => !/sw[.]js$/.test(path));
  return {
    url: `http://localhost:${port}/a/b/`,
    total: stored.reduce((sum, [, bytes]) => sum + bytes.length, 0),
    failAfter(after, how = 'breaks off') {
      left = after;
      failing = how;
      hasFailed = false;
    },
    hasFailed: () => hasFailed,
    close() {
      server.closeAllConnections();
      server.close();
    },
  };
}
