/**
 * Why the logbook did not open: written by a newer app, no storage in this window, no room, or
 * something that only the device knows.
 */
export function openingFault(error: unknown): 'newer' | 'shut' | 'full' | 'other' {
  const name = error instanceof Error || error instanceof DOMException ? error.name : '';
  switch (name) {
    case 'VersionError':
      return 'newer';
    // Private windows of some browsers have no database at all, others refuse to open one.
    case 'SecurityError':
    case 'InvalidStateError':
      return 'shut';
    case 'QuotaExceededError':
      return 'full';
    default:
      return 'other';
  }
}
