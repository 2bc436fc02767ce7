/** How a file leaves this device's browser. How one comes in is a field of a page. */
export interface Files {
  /** Whether this device hands such a file to another app. */
  canShare(file: File): boolean;
  /** Opens the device's own sheet; false when the person turned back. Only right after a press. */
  share(file: File): Promise<boolean>;
  /** Puts it where this browser keeps what was downloaded. */
  save(file: File): void;
}

/** As long as the slowest browser takes to begin a download of its own memory. */
const heldMs = 60_000;

/** The device's share sheet and its downloads. */
export const deviceFiles: Files = {
  canShare: (file) => 'canShare' in navigator && navigator.canShare({ files: [file] }),
  async share(file) {
    try {
      await navigator.share({ files: [file] });
      return true;
    } catch (error) {
      if (error instanceof DOMException && error.name === 'AbortError') return false;
      throw error;
    }
  },
  save(file) {
    const url = URL.createObjectURL(file);
    const way = document.createElement('a');
    way.href = url;
    way.download = file.name;
    way.click();
    setTimeout(() => URL.revokeObjectURL(url), heldMs);
  },
};
