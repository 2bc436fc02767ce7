import { useState } from 'preact/hooks';
import { mixedAs } from '#calc/mixed-as.ts';
import type { Said, SaidOf } from '#model/entry.ts';
import type { Instant } from '#model/schemas.ts';
import { volumeText } from '#screens/number-text.ts';
import type { OpenLine } from '#screens/pour/open-line.ts';
import { PutRightForm } from '#screens/pour/PutRightForm.tsx';
import { typedVolume, VolumeField } from '#screens/pour/VolumeField.tsx';
import { Field } from '#ui/Field.tsx';

interface Props {
  open: OpenLine;
  said: SaidOf<'pot-mixed'>;
  onSave: (says: Said, happenedAt: Instant) => void;
  onLeave: () => void;
}

/** What a mix was and how much of it: another colour of as many sides, other volumes. */
export function PutRightMix({ open, said, onSave, onLeave }: Props) {
  const unit = open.units.volumeUnit;
  const [chosen, setChosen] = useState<string>(said.colourwayId ?? '');
  const [texts, setTexts] = useState(() => said.pots.map((pot) => volumeText(pot.volumeMl, unit)));
  const [refusals, setRefusals] = useState<(string | undefined)[]>([]);
  const others = open.colourways.filter(
    ({ id, sides }) => id !== said.colourwayId && sides.length === said.pots.length,
  );
  const colourway = others.find(({ id }) => id === chosen);
  const mix = colourway ? mixedAs(said, colourway) : said;

  function read(): Said | null {
    const typed = said.pots.map((pot, index) =>
      typedVolume(texts[index] ?? '', pot.volumeMl, unit),
    );
    setRefusals(typed.map((one) => ('refusal' in one ? one.refusal : undefined)));
    const volumes = typed.flatMap((one) => ('volumeMl' in one ? one.volumeMl : []));
    if (volumes.length < mix.pots.length) return null;
    const pots = mix.pots.map((pot, index) => ({
      ...pot,
      volumeMl: volumes[index] ?? pot.volumeMl,
    }));
    return { ...mix, pots };
  }

  return (
    <PutRightForm open={open} says={read} onSave={onSave} onLeave={onLeave}>
      <Field label="Colour">
        {(attributes) => (
          <select
            {...attributes}
            value={chosen}
            onChange={(event) => setChosen(event.currentTarget.value)}
          >
            <option value={said.colourwayId ?? ''}>{said.name}</option>
            {others.map(({ id, name }) => (
              <option key={id} value={id}>
                {name}
              </option>
            ))}
          </select>
        )}
      </Field>
      {mix.pots.map(({ potId, name }, index) => (
        <VolumeField
          key={potId}
          label={name}
          unit={unit}
          text={texts[index] ?? ''}
          error={refusals[index]}
          onText={(text) => setTexts(texts.with(index, text))}
        />
      ))}
    </PutRightForm>
  );
}
