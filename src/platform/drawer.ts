/** What the standard's worker types say of an open file; the types of a page leave it out. */
interface OpenFile {
  getSize(): number;
  read(into: Uint8Array, options: { at: number }): number;
  write(bytes: Uint8Array, options: { at: number }): number;
  truncate(size: number): void;
  flush(): void;
  close(): void;
}
type WorkerFile = FileSystemFileHandle & { createSyncAccessHandle(): Promise<OpenFile> };

/**
 * A folder of files that this site alone sees (origin private file system), each open for one
 * worker at a time. Rejects where the device has none, as in some private windows. In a worker only.
 */
export async function deviceDrawer(folder: string) {
  const root = await navigator.storage.getDirectory();
  const drawer = await root.getDirectoryHandle(folder, { create: true });
  if (!('createSyncAccessHandle' in FileSystemFileHandle.prototype)) {
    throw new Error('This browser writes no files in a worker.');
  }
  return {
    async names(): Promise<string[]> {
      const names: string[] = [];
      for await (const name of drawer.keys()) names.push(name);
      return names;
    },
    async open(name: string) {
      const file = (await drawer.getFileHandle(name, { create: true })) as WorkerFile;
      return paperOf(await file.createSyncAccessHandle());
    },
    async remove(name: string): Promise<void> {
      await drawer.removeEntry(name);
    },
  };
}

/** Whether the folder is there at all; quick, and safe to ask anywhere. */
export async function hasDrawer(folder: string): Promise<boolean> {
  try {
    const root = await navigator.storage.getDirectory();
    await root.getDirectoryHandle(folder);
    return true;
  } catch {
    return false;
  }
}

function paperOf(handle: OpenFile) {
  return {
    size: () => handle.getSize(),
    read(at: number, length: number): Uint8Array {
      const bytes = new Uint8Array(Math.max(0, Math.min(length, handle.getSize() - at)));
      return bytes.subarray(0, handle.read(bytes, { at }));
    },
    add(bytes: Uint8Array): void {
      const at = handle.getSize();
      try {
        if (handle.write(bytes, { at }) === bytes.length) return;
      } catch {
        // Told below: half a line must not stay, the next one would be glued to it.
      }
      handle.truncate(at);
      throw new DOMException('No room.', 'QuotaExceededError');
    },
    cut: (size: number) => handle.truncate(size),
    flush: () => handle.flush(),
    close: () => handle.close(),
  };
}
