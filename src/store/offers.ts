import type { Instant } from '#model/schemas.ts';
import type { Book } from '#store/book.ts';
import { demoName } from '#store/names.ts';
import { keyOf, read, write } from '#store/own-lines.ts';
import { settingsOf } from '#store/settings.ts';

/** What is offered once, after a finished session: a place on the home screen, the sound check, the glove check. */
export const offers = ['home', 'sound', 'gloves'] as const;
export type Offer = (typeof offers)[number];

/** After an answer nothing more is offered for so long: one question in one sitting. */
const restMs = 3_600_000;

/** What this device answered, and when last. */
interface Answered {
  answered: readonly Offer[];
  at: Instant;
}

/**
 * What may be offered now; null: nothing. Never before a session is finished, never what was answered
 * or done before. `isHomeOpen`: the device has a home screen that the app is not on.
 */
export async function offerOf(
  book: Book,
  isHomeOpen: boolean,
  now: Instant,
): Promise<Offer | null> {
  if (book.db.name === demoName || (await book.db.count('sealed')) === 0) return null;
  const { answered, at } = answeredOf(book);
  const rests = now - at;
  if (rests >= 0 && rests < restMs) return null;
  const { music, hearing, keySize } = await settingsOf(book);
  const isDone: Record<Offer, boolean> = {
    home: !isHomeOpen,
    sound: music !== null || hearing !== null,
    gloves: keySize !== 'usual',
  };
  return offers.find((offer) => !isDone[offer] && !answered.includes(offer)) ?? null;
}

/** Keeps that an offer was answered: taken, done without being asked, or not wanted. */
export function settleOffer(book: Book, offer: Offer, at: Instant): void {
  const { answered } = answeredOf(book);
  const next = { answered: [...new Set([...answered, offer])], at };
  write(keyOf(book, 'offers'), JSON.stringify(next));
}

function answeredOf(book: Book): Answered {
  try {
    const kept: unknown = JSON.parse(read(keyOf(book, 'offers')) ?? 'null');
    if (typeof kept === 'object' && kept !== null) {
      const { answered, at } = kept as Partial<Answered>;
      if (Array.isArray(answered) && typeof at === 'number') return { answered, at };
    }
  } catch {
    // Not ours: nothing was answered.
  }
  return { answered: [], at: Number.NEGATIVE_INFINITY };
}
