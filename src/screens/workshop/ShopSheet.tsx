import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import type { Injector } from '#model/gear.ts';
import { lengthUnitOf } from '#screens/lengths.ts';
import { hrefTo } from '#screens/routes.ts';
import type { Change } from '#screens/use-settings.ts';
import { volumeWords } from '#screens/volumes.ts';
import { countWords } from '#screens/words.ts';
import { Row } from '#screens/workshop/Row.tsx';
import { headsOf } from '#store/heads.ts';
import type { SettingsFacts } from '#store/settings.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Acts } from '#ui/Acts.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import styles from './Rows.module.css';

interface Props {
  settings: SettingsFacts;
  onChange: (next: Change) => void;
}

const volumeUnits = [
  ['cup', 'Cups'],
  ['floz', 'fl oz'],
  ['mL', 'mL'],
] as const;

/** What the shop holds and the units it speaks. */
export function ShopSheet({ settings, onChange }: Props) {
  const { book } = useShop();
  const held = useLive(
    async () => ({
      moulds: (await headsOf(book, 'moulds')).length,
      colours: (await headsOf(book, 'colourways')).length,
      materials: (await headsOf(book, 'materials')).length,
      injectors: await headsOf(book, 'injectors'),
    }),
    ['moulds', 'colourways', 'materials', 'injectors'],
    'held',
  );
  if (!held) return null;
  const { volumeUnit, tempUnit } = settings;
  return (
    <Sheet title="The shop">
      <ul class={styles.rows}>
        <Row title="Moulds" says={countWords(held.moulds, 'mould')}>
          <ActKey href={hrefTo({ at: 'mould-facts', mouldId: null })} label="Add a mould">
            Add
          </ActKey>
        </Row>
        <Row title="Colours" says={countWords(held.colours, 'colour')}>
          <ActKey href={hrefTo({ at: 'colour-facts', colourwayId: null })} label="Add a colour">
            Add
          </ActKey>
        </Row>
        <Row title="Materials" says={countWords(held.materials, 'material')}>
          <ActKey href={hrefTo({ at: 'material-facts', materialId: null })} label="Add a material">
            Add
          </ActKey>
        </Row>
        <Row title="Injectors" says={countWords(held.injectors.length, 'injector')}>
          <ActKey href={hrefTo({ at: 'injector-facts', injectorId: null })} label="Add an injector">
            Add
          </ActKey>
        </Row>
        {held.injectors.map((injector) => (
          <Row key={injector.id} title={injector.name} says={injectorWords(injector, volumeUnit)}>
            <ActKey
              href={hrefTo({ at: 'injector-facts', injectorId: injector.id })}
              label={`Change ${injector.name}`}
            >
              Change
            </ActKey>
          </Row>
        ))}
      </ul>
      <h3>Units</h3>
      <Acts label="Volumes">
        {volumeUnits.map(([unit, word]) => (
          <ActKey
            key={unit}
            isPressed={volumeUnit === unit}
            onPress={() => onChange(() => ({ volumeUnit: unit }))}
          >
            {word}
          </ActKey>
        ))}
      </Acts>
      <Acts label="Weights">
        {(['g', 'oz'] as const).map((unit) => (
          <ActKey
            key={unit}
            isPressed={(settings.massUnit ?? 'g') === unit}
            onPress={() => onChange(() => ({ massUnit: unit }))}
          >
            {unit}
          </ActKey>
        ))}
      </Acts>
      <Acts label="Lengths">
        {(['mm', 'in'] as const).map((unit) => (
          <ActKey
            key={unit}
            isPressed={lengthUnitOf(settings) === unit}
            onPress={() => onChange(() => ({ lengthUnit: unit }))}
          >
            {unit === 'mm' ? 'mm' : 'inches'}
          </ActKey>
        ))}
      </Acts>
      <Acts label="Temperatures">
        {(['C', 'F'] as const).map((unit) => (
          <ActKey
            key={unit}
            isPressed={tempUnit === unit}
            onPress={() => onChange(() => ({ tempUnit: unit }))}
          >
            °{unit}
          </ActKey>
        ))}
      </Acts>
    </Sheet>
  );
}

function injectorWords(injector: Injector, unit: SettingsFacts['volumeUnit']): string {
  const bore = injector.boreMm === null ? '' : `, bore ${injector.boreMm} mm`;
  return `${volumeWords(injector.capacityMl, unit)}${bore}${injector.isTwin ? ', twin' : ''}`;
}
