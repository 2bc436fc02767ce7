import { useState } from 'preact/hooks';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import type { ColourwayId } from '#model/gear.ts';
import { ForecastPictures } from '#screens/ForecastPictures.tsx';
import { ThicknessStepper, usualThicknessMm } from '#screens/ThicknessStepper.tsx';
import { verdictsOn } from '#store/balance.ts';
import { colourShopOf } from '#store/colour-shop.ts';
import { headOf, headsOf } from '#store/heads.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Choices } from '#ui/Choices.tsx';
import { Sheet } from '#ui/Sheet.tsx';

/** The thin end of a usual bait that the method still covers, mm (methods-colour-plan 1.6). */
const usualThinMm = 5;

/** What the newest mix of a colour should look like, thick and thin, beside the nearest own photo. */
export function ForecastSheet({ colourwayId }: { colourwayId: ColourwayId }) {
  const { book } = useShop();
  const found = useLive(
    async () => {
      const [shop, moulds, colourway] = await Promise.all([
        colourShopOf(book),
        headsOf(book, 'moulds'),
        headOf(book, 'colourways', colourwayId),
      ]);
      const isPair = (colourway?.sides.length ?? 1) > 1;
      const verdicts = isPair ? await verdictsOn(book, colourwayId) : [];
      return { shop, moulds, verdicts };
    },
    ['materials', 'mixes', 'photos', 'moulds', 'colourways', 'columns'],
    colourwayId,
  );
  const [thickMm, setThickMm] = useState<number | null>(null);
  const [thinMm, setThinMm] = useState(usualThinMm);
  if (!found) return null;
  const { shop, moulds, verdicts } = found;
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
  const measured = moulds
    .flatMap(({ id, name, section }) =>
      section ? [{ id, name, thicknessMm: Math.round(section.thicknessMm) }] : [],
    )
    .sort((one, other) => one.name.localeCompare(other.name));
  const thick = thickMm ?? measured[0]?.thicknessMm ?? usualThicknessMm;
  const thin = Math.min(thinMm, thick);
  return (
    <Sheet title="What to expect" aside={`Version ${mix.version}`}>
      <ForecastPictures {...{ shop, mix, verdicts, thick, thin, colourwayId }}>
        {measured.length > 0 && (
          <Choices label="Thickest part of">
            {measured.map(({ id, name, thicknessMm }) => (
              <ActKey
                key={id}
                small={`${thicknessMm} mm`}
                isPressed={thicknessMm === thick}
                onPress={() => setThickMm(thicknessMm)}
              >
                {name}
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
