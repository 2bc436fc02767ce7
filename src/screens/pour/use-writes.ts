import { useState } from 'preact/hooks';
import type { Line } from '#calc/log.ts';
import type { Right } from '#calc/rights.ts';
import { useShop } from '#live/shop.ts';
import type { Said, SessionId } from '#model/entry.ts';
import type { Instant } from '#model/schemas.ts';
import { addToSession, putAllRight, takeBack } from '#store/sessions.ts';

/** What a hand can change in a session, each answered when it is on disk. */
export interface Writes {
  /** One sentence when the last press could not be stored; null: it could. */
  trouble: string | null;
  /** `also`: what follows from it for other lines. Resolves to false when it could not be stored. */
  putRight: (line: Line, says: Said, happenedAt: Instant, also?: Right[]) => Promise<boolean>;
  takeBack: (line: Line) => Promise<boolean>;
  bringBack: (line: Line) => Promise<boolean>;
  /** `happenedAt`: when it was, if not just now. */
  add: (said: Said, happenedAt?: Instant) => Promise<boolean>;
}

/** The corrections of one session. */
export function useWrites(sessionId: SessionId): Writes {
  const { book, clock, touch } = useShop();
  const [trouble, setTrouble] = useState<string | null>(null);

  async function write(act: (at: Instant) => Promise<void>): Promise<boolean> {
    try {
      await act(clock.now());
    } catch {
      setTrouble('Not saved. Free some space and press again.');
      touch.refuse();
      return false;
    }
    setTrouble(null);
    touch.confirm();
    return true;
  }

  return {
    trouble,
    putRight: ({ id }, says, happenedAt, also = []) =>
      write((at) => putAllRight(book, sessionId, [{ target: id, says, happenedAt }, ...also], at)),
    takeBack: ({ id }) => write((at) => takeBack(book, sessionId, id, at)),
    bringBack: ({ takenBackBy }) =>
      write(async (at) => {
        if (takenBackBy) await takeBack(book, sessionId, takenBackBy, at);
      }),
    add: (said, happenedAt) =>
      write((at) => addToSession(book, sessionId, said, at, happenedAt ?? at)),
  };
}
