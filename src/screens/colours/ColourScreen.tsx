import { useState } from 'preact/hooks';
import { dayOf } from '#calc/days.ts';
import { mouldsOfColourway } from '#calc/last-poured.ts';
import { useShop } from '#live/shop.ts';
import type { ColourwayId } from '#model/gear.ts';
import type { Mix, MixId } from '#model/mix.ts';
import { Hero } from '#screens/colours/Hero.tsx';
import { MixSheet } from '#screens/colours/MixSheet.tsx';
import { NextTime } from '#screens/colours/NextTime.tsx';
import { Remarks } from '#screens/colours/Remarks.tsx';
import { type MixBook, useMixBook } from '#screens/colours/use-mix-book.ts';
import { Versions } from '#screens/colours/Versions.tsx';
import { ForecastSheet } from '#screens/ForecastSheet.tsx';
import { NotHere } from '#screens/NotHere.tsx';
import { PhotoStrip } from '#screens/PhotoStrip.tsx';
import { hrefTo } from '#screens/routes.ts';
import { countWords, dateWords } from '#screens/words.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { DeskPage } from '#ui/DeskPage.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import { ToolKey } from '#ui/ToolKey.tsx';
import styles from './Mix.module.css';

/** One colour: what is in it, for any volume, in all its versions. */
export function ColourScreen({ colourwayId }: { colourwayId: ColourwayId }) {
  const { clock } = useShop();
  const of = useMixBook(colourwayId);
  const [shownId, setShownId] = useState<MixId | null>(null);
  if (!of) return null;
  const { colourway, versions } = of;
  if (!colourway) {
    return <NotHere what="This colour" back={{ at: 'colours' }} word="Colours" />;
  }
  const mix = versions.find(({ id }) => id === shownId) ?? versions[0] ?? null;
  return (
    <DeskPage
      title={mix ? `${colourway.name} ${mix.version}` : colourway.name}
      small={pouredWords(of, mix, dayOf(clock.now(), clock.zone()))}
      shape="one"
      tool={<ToolKey href={hrefTo({ at: 'colours' })} icon="back" word="Colours" />}
    >
      <div class={styles.plain}>
        <Hero colourway={colourway} photo={of.photo} />
        {mix ? (
          <MixSheet key={mix.id} mix={mix} of={of} />
        ) : (
          <Sheet>
            <p>No mix yet. Write down what goes into a cup.</p>
          </Sheet>
        )}
      </div>
      <div class={styles.plain}>
        <Sheet title="This colour">
          <ActKey href={hrefTo({ at: 'mix-facts', colourwayId })}>
            {mix ? 'Change the doses' : 'Write its mix'}
          </ActKey>
          {mix && <ActKey href={hrefTo({ at: 'share-mix', mixId: mix.id })}>Share this mix</ActKey>}
          <ActKey href={hrefTo({ at: 'colour-facts', colourwayId })}>Change name and look</ActKey>
          <UsedIn of={of} colourwayId={colourwayId} />
        </Sheet>
        <PhotoStrip colourwayId={colourwayId} />
        <ForecastSheet colourwayId={colourwayId} />
        {mix && <NextTime key={`${mix.id} ${mix.nextTime}`} mix={mix} />}
        {mix && (
          <Versions of={of} name={colourway.name} shown={mix} onShow={({ id }) => setShownId(id)} />
        )}
        <Remarks
          colourwayId={colourwayId}
          mix={mix}
          remarks={of.remarks}
          takenOff={of.takenOff}
          moulds={of.moulds}
          pouredIn={mouldsOfColourway(of.columns, colourwayId)}
        />
      </div>
    </DeskPage>
  );
}

/** The moulds that the colour was poured in, the last one first; each leads to its page. */
function UsedIn({ of, colourwayId }: { of: MixBook; colourwayId: ColourwayId }) {
  const names = new Map(of.moulds.map(({ id, name }) => [id, name]));
  const moulds = mouldsOfColourway(of.columns, colourwayId).filter((id) => names.has(id));
  if (moulds.length === 0) return null;
  return (
    <p class={styles.pours}>
      Used in:
      {moulds.map((mouldId) => (
        <a key={mouldId} href={hrefTo({ at: 'mould', mouldId })}>
          {names.get(mouldId)}
        </a>
      ))}
    </p>
  );
}

function pouredWords({ pours }: MixBook, mix: Mix | null, today: string): string {
  if (!mix) return 'no mix written';
  const own = pours.get(mix.id) ?? [];
  const [last] = own;
  if (!last) return 'not poured yet';
  return `poured ${countWords(own.length, 'time')}, last ${dateWords(dayOf(last.at, last.zone), today)}`;
}
