/** Why a file was not taken. Nothing in the logbook was changed. */
export type Why =
  /** Not one of our files at all. */
  | 'not-a-copy'
  /** Written by a later version of the app. */
  | 'newer'
  /** A byte is not what it was when the file was written. */
  | 'damaged'
  /** The file ends before its end. */
  | 'cut-short'
  /** It is locked, and no passphrase was given. */
  | 'needs-words'
  | 'wrong-words'
  /** Larger than any logbook, packed or unpacked. */
  | 'too-big'
  /** It holds what no logbook writes. */
  | 'not-allowed'
  /** Reading took longer than it may. */
  | 'too-long'
  /** The person stopped it. */
  | 'stopped';

/** An error that carries its reason; `what` says more, in words for the person. */
export function refusal(why: Why, what = ''): Error {
  return Object.assign(new Error(what || why), { why });
}

/** Throws once the person has stopped a long piece of work, or its time is up. */
export function mayGoOn(signal: AbortSignal | undefined): void {
  if (!signal?.aborted) return;
  const { reason } = signal;
  const isTimeUp = reason instanceof DOMException && reason.name === 'TimeoutError';
  throw refusal(isTimeUp ? 'too-long' : 'stopped');
}

/** Why a file was refused; null: the error is another one. */
export function whyOf(error: unknown): Why | null {
  return error instanceof Error && 'why' in error ? (error.why as Why) : null;
}
