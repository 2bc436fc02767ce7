import { useState } from 'preact/hooks';
import type { Line } from '#calc/log.ts';
import type { Right } from '#calc/rights.ts';
import { useShop } from '#live/shop.ts';
import type { Said, SessionId } from '#model/entry.ts';
import type { Instant } from '#model/schemas.ts';
import { useTurns } from '#screens/use-turns.ts';
import { addToSession, putAllRight, takeBack } from '#store/sessions.ts';

/**
 * What a hand can change in a session, one after the other, each answered when it is on disk. False, too,
 * for a second press of what is being written.
 */
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
  const inTurn = useTurns();
  const [trouble, setTrouble] = useState<string | null>(null);

  async function write(key: string, act: (at: Instant) => Promise<void>): Promise<boolean> {
    const isWritten = await inTurn(key, async () => {
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
    });
    return isWritten ?? false;
  }

  return {
    trouble,
    putRight: ({ id }, says, happenedAt, also = []) =>
      write(`${id} ${JSON.stringify([says, happenedAt])}`, (at) =>
        putAllRight(book, sessionId, [{ target: id, says, happenedAt }, ...also], at),
      ),
    takeBack: ({ id }) => write(id, (at) => takeBack(book, sessionId, id, at)),
    bringBack: ({ takenBackBy }) =>
      write(takenBackBy ?? '', async (at) => {
        if (takenBackBy) await takeBack(book, sessionId, takenBackBy, at);
      }),
    add: (said, happenedAt) =>
      write(JSON.stringify([said, happenedAt]), (at) =>
        addToSession(book, sessionId, said, at, happenedAt ?? at),
      ),
  };
}
