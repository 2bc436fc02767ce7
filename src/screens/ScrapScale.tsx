import { useState } from 'preact/hooks';
import { columnsOf } from '#calc/columns.ts';
import { lastScrapG } from '#calc/last-time.ts';
import { type Line, linesOf } from '#calc/log.ts';
import { type Scrap, scrapOf } from '#calc/scrap.ts';
import { checkOf, goodByScale } from '#calc/scrap-check.ts';
import { tableOf } from '#calc/table.ts';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import type { Entry, SessionId } from '#model/entry.ts';
import { Refusal } from '#screens/Refusal.tsx';
import { scrapWords } from '#screens/scrap-words.ts';
import { useOneAct } from '#screens/use-one-act.ts';
import { countWords, gramWords } from '#screens/words.ts';
import { sessionsBefore } from '#store/last-time.ts';
import { addToSession, putRight, takeBack } from '#store/sessions.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Acts } from '#ui/Acts.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import { Stepper } from '#ui/Stepper.tsx';

const stepG = 10;
const mostG = 20_000;

interface Props {
  sessionId: SessionId;
  entries: readonly Entry[];
  /** The day of the session, where the page does not say it. */
  aside?: string;
  /** What all weighed sessions say together. */
  together?: string;
  isFolded?: boolean;
}

/** Are all bad ones marked? The scrap of one session on the scale tells, and the weight is kept with it. */
export function ScrapScale({ sessionId, entries, aside, together, isFolded }: Props) {
  const { book, clock } = useShop();
  const { act, trouble } = useOneAct();
  const before = useLive(() => sessionsBefore(book, sessionId), ['columns'], sessionId);
  const lastG = before ? lastScrapG(before) : null;
  const [draftG, setDraftG] = useState<number | null>(null);
  const scrap = scrapOf(tableOf(entries));
  if (scrap.bad === 0) return null;
  const { kept, gone } = weighingsIn(entries);
  const firstG = kept?.massG ?? Math.round(scrap.massG / stepG) * stepG;
  const shownG = draftG ?? firstG;
  const said: Scrap = { ...scrap, weighedG: draftG ?? scrap.weighedG };
  const set = (next: number) => setDraftG(Math.min(mostG, Math.max(0, next)));
  const write = (doing: (at: number) => Promise<void>) =>
    act(async () => {
      await doing(clock.now());
      // What the scale was set to meanwhile is still to be kept.
      setDraftG((now) => (now === draftG ? null : now));
      return null;
    });
  const keep = () =>
    write(async (at) => {
      const says = { kind: 'scrap-weighed', massG: shownG } as const;
      if (!kept) return await addToSession(book, sessionId, says, at);
      const right = { target: kept.line.id, says, happenedAt: kept.line.at };
      await putRight(book, sessionId, right, at);
    });
  const { cells } = columnsOf(sessionId, entries);
  const isToKeep = draftG !== null && draftG !== kept?.massG;
  return (
    <Sheet
      title="Are all bad ones marked?"
      {...(aside ? { aside } : {})}
      {...(isFolded ? { isFolded } : {})}
    >
      <p>
        You marked {countWords(scrap.bad, 'bait')} bad, about {gramWords(scrap.massG)}. Weigh the
        bad baits without their sprues.
      </p>
      <Stepper
        label="Weighed bad baits"
        value={gramWords(shownG)}
        small={draftG !== null ? 'on the scale' : kept ? 'on the scale, kept' : 'as marked'}
        last={lastG === null ? undefined : gramWords(lastG)}
        lessName="Less"
        moreName="More"
        onLess={() => set(shownG - stepG)}
        onMore={() => set(shownG + stepG)}
      />
      <p role="status">
        {said.weighedG === null
          ? 'Set what the scale shows.'
          : scrapWords(checkOf(said), goodByScale({ cells, scrap: said }))}
      </p>
      <Acts>
        {isToKeep && <ActKey onPress={() => void keep()}>Keep {gramWords(shownG)}</ActKey>}
        {!isToKeep && kept && (
          <ActKey
            label={`Take it back: ${gramWords(kept.massG)}`}
            onPress={() => void write((at) => takeBack(book, sessionId, kept.line.id, at))}
          >
            Take it back
          </ActKey>
        )}
        {!isToKeep && !kept && gone && (
          <ActKey onPress={() => void write((at) => takeBack(book, sessionId, gone.by, at))}>
            Bring back {gramWords(gone.massG)}
          </ActKey>
        )}
      </Acts>
      <Refusal says={trouble} />
      {together && <p>{together}</p>}
    </Sheet>
  );
}

interface Weighings {
  /** What counts now. */
  kept: { line: Line; massG: number } | null;
  /** What was taken back last, and the entry that did it. */
  gone: { massG: number; by: NonNullable<Line['takenBackBy']> } | null;
}

function weighingsIn(entries: readonly Entry[]): Weighings {
  const found: Weighings = { kept: null, gone: null };
  for (const line of linesOf(entries)) {
    if (line.said.kind !== 'scrap-weighed') continue;
    const { massG } = line.said;
    if (line.takenBackBy) found.gone = { massG, by: line.takenBackBy };
    else found.kept = { line, massG };
  }
  return found;
}
