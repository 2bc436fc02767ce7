import { useState } from 'preact/hooks';
import { dayOf } from '#calc/days.ts';
import { scrapOf } from '#calc/scrap.ts';
import { type ScrapCheck, scrapCheck } from '#calc/scrap-check.ts';
import { tableOf } from '#calc/table.ts';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import { countWords, dateWords } from '#screens/words.ts';
import { newestColumns } from '#store/history.ts';
import { entriesOf } from '#store/sessions.ts';
import { Sheet } from '#ui/Sheet.tsx';
import { Stepper } from '#ui/Stepper.tsx';

const stepG = 10;
const mostG = 20_000;

/** Are all bad ones marked? The scrap of the last session on the scale tells. */
export function ScrapSheet() {
  const { book, clock } = useShop();
  const [weighedG, setWeighedG] = useState<number | null>(null);
  const found = useLive(
    async () => {
      const last = await newestColumns(book);
      if (!last) return null;
      const scrap = scrapOf(tableOf(await entriesOf(book, last.sessionId)));
      return { scrap, day: dayOf(last.startedAt, last.zone), zone: last.zone };
    },
    ['columns', 'sealed'],
    'last',
  );
  if (!found || found.scrap.bad === 0) return null;
  const { scrap, day, zone } = found;
  const markedG = Math.round(scrap.massG / stepG) * stepG;
  const shownG = weighedG ?? markedG;
  const set = (next: number) => setWeighedG(Math.min(mostG, Math.max(0, next)));
  const date = dateWords(day, dayOf(clock.now(), zone));
  return (
    <Sheet title="Are all bad ones marked?" aside={date}>
      <p>
        You marked {countWords(scrap.bad, 'bait')} bad, about {Math.round(scrap.massG)} g. Weigh the
        bad baits without their sprues.
      </p>
      <Stepper
        label="Weighed bad baits"
        value={`${shownG} g`}
        small={weighedG === null ? 'as marked' : 'on the scale'}
        lessName="Less"
        moreName="More"
        onLess={() => set(shownG - stepG)}
        onMore={() => set(shownG + stepG)}
      />
      <p role="status">
        {weighedG === null
          ? 'Set what the scale shows.'
          : checkWords(scrapCheck(scrap, weighedG, scrap.massG / scrap.bad))}
      </p>
    </Sheet>
  );
}

function checkWords(check: ScrapCheck | null): string {
  if (!check) return 'Give each mould its bait volume first: a guessed one proves nothing.';
  switch (check.kind) {
    case 'fits':
      return 'That fits what you marked.';
    case 'more-thrown':
      return `About ${countWords(check.baits, 'bad bait')} more than marked. The yields then look better than they are.`;
    case 'more-marked':
      return `About ${countWords(check.baits, 'bait')} fewer than marked. Some marked bad may have been kept.`;
  }
}
