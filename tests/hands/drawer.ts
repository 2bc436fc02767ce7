import type { Drawer, Paper } from '#store/journal.ts';

/** A folder of files in memory, with bytes that a test can damage. */
export interface MemoryDrawer extends Drawer {
  files: Map<string, Uint8Array>;
  /** Bytes that still fit; a write of more is refused. */
  roomBytes: number;
  /** Files that are open: each is for one at a time, as the standard has it. */
  held: Set<string>;
}

/** An empty folder. */
export function aDrawer(): MemoryDrawer {
  const drawer: MemoryDrawer = {
    files: new Map(),
    roomBytes: Number.POSITIVE_INFINITY,
    held: new Set(),
    names: async () => [...drawer.files.keys()],
    async open(name) {
      if (!drawer.files.has(name)) drawer.files.set(name, new Uint8Array(0));
      drawer.held.add(name);
      return paperOf(drawer, name);
    },
    async remove(name) {
      drawer.roomBytes += drawer.files.get(name)?.length ?? 0;
      drawer.files.delete(name);
    },
  };
  return drawer;
}

function paperOf(drawer: MemoryDrawer, name: string): Paper {
  const bytes = () => drawer.files.get(name) ?? new Uint8Array(0);
  return {
    size: () => bytes().length,
    read: (at, length) => bytes().slice(at, at + length),
    add(more) {
      if (more.length > drawer.roomBytes) throw new DOMException('Full.', 'QuotaExceededError');
      drawer.roomBytes -= more.length;
      const next = new Uint8Array(bytes().length + more.length);
      next.set(bytes());
      next.set(more, bytes().length);
      drawer.files.set(name, next);
    },
    cut: (size) => void drawer.files.set(name, bytes().slice(0, size)),
    flush: () => {},
    close: () => void drawer.held.delete(name),
  };
}
