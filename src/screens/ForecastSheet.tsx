import { useState } from 'preact/hooks';
import { mouldsOfColourway } from '#calc/last-poured.ts';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import type { ColourwayId } from '#model/gear.ts';
import type { Mould, MouldId } from '#model/mould.ts';
import { ForecastPictures } from '#screens/ForecastPictures.tsx';
import { type LengthUnit, lengthUnitOf, lengthWords } from '#screens/lengths.ts';
import { ThicknessStepper, usualThicknessMm } from '#screens/ThicknessStepper.tsx';
import { verdictsOn } from '#store/balance.ts';
import { colourShopOf, colourTables } from '#store/colour-shop.ts';
import { headOf, headsOf } from '#store/heads.ts';
import { allColumns } from '#store/history.ts';
import { settingsOf } from '#store/settings.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Choices } from '#ui/Choices.tsx';
import { Sheet } from '#ui/Sheet.tsx';

/** The thin end of a usual bait that the method still covers, mm (methods-colour-plan 1.6). */
const usualThinMm = 5;

/** How thick the bait of one mould is. */
interface Measured {
  id: MouldId;
  name: string;
  thickMm: number;
  /** Null: not measured. */
  thinMm: number | null;
}

/** What the newest mix of a colour should look like, thick and thin, beside the nearest own photo. */
export function ForecastSheet({ colourwayId }: { colourwayId: ColourwayId }) {
  const { book } = useShop();
  const found = useLive(
    async () => {
      const [shop, moulds, colourway, columns, settings] = await Promise.all([
        colourShopOf(book),
        headsOf(book, 'moulds'),
        headOf(book, 'colourways', colourwayId),
        allColumns(book),
        settingsOf(book),
      ]);
      const isPair = (colourway?.sides.length ?? 1) > 1;
      const verdicts = isPair ? await verdictsOn(book, colourwayId) : [];
      const measured = measuredOf(moulds, mouldsOfColourway(columns, colourwayId));
      return { shop, measured, verdicts, unit: lengthUnitOf(settings) };
    },
    [...colourTables, 'moulds', 'colourways', 'columns', 'settings'],
    colourwayId,
  );
  const [thickMm, setThickMm] = useState<number | null>(null);
  const [thinMm, setThinMm] = useState<number | null>(null);
  if (!found) return null;
  const { shop, measured, verdicts, unit } = found;
  const mix = shop.mixes
    .filter((one) => one.colourwayId === colourwayId && one.deletedAt === null)
    .sort((one, other) => other.version - one.version)[0];
  if (!mix) {
    return (
      <Sheet title="What to expect">
        <p>No guess: no mix is written down for this colour yet.</p>
      </Sheet>
    );
  }
  const [first] = measured;
  const thick = thickMm ?? first?.thickMm ?? usualThicknessMm;
  const thin = Math.min(thinMm ?? first?.thinMm ?? usualThinMm, thick);
  return (
    <Sheet title="What to expect" aside={`Version ${mix.version}`}>
      <ForecastPictures {...{ shop, mix, verdicts, thick, thin, unit, colourwayId }}>
        {measured.length > 0 && (
          <Choices label="The bait of">
            {measured.map((one) => (
              <ActKey
                key={one.id}
                small={measuredWords(one, unit)}
                isPressed={one.thickMm === thick && thinOf(one) === thin}
                onPress={() => {
                  setThickMm(one.thickMm);
                  setThinMm(thinOf(one));
                }}
              >
                {one.name}
              </ActKey>
            ))}
          </Choices>
        )}
        <ThicknessStepper label="Thickest part" thicknessMm={thick} onChange={setThickMm} />
        <ThicknessStepper label="Thinnest part" thicknessMm={thin} onChange={setThinMm} />
      </ForecastPictures>
    </Sheet>
  );
}

/** The moulds of known thickness: those that the colour went into, the last one first, then by name. */
function measuredOf(moulds: readonly Mould[], pouredIn: readonly MouldId[]): Measured[] {
  const place = ({ id }: Measured) => (pouredIn.includes(id) ? pouredIn.indexOf(id) : Infinity);
  return moulds
    .flatMap(({ id, name, section, thinnestMm = null }): Measured[] => {
      if (!section && thinnestMm === null) return [];
      const thickMm = Math.max(section?.thicknessMm ?? usualThicknessMm, thinnestMm ?? 0);
      return [{ id, name, thickMm, thinMm: thinnestMm }];
    })
    .sort((one, other) =>
      place(one) === place(other) ? one.name.localeCompare(other.name) : place(one) - place(other),
    );
}

function measuredWords({ thickMm, thinMm }: Measured, unit: LengthUnit): string {
  const thin = thinMm === null ? '' : `, thin ${lengthWords(thinMm, unit)}`;
  return `${lengthWords(thickMm, unit)}${thin}`;
}

function thinOf({ thickMm, thinMm }: Measured): number {
  return Math.min(thinMm ?? usualThinMm, thickMm);
}
