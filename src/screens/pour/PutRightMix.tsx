import { useState } from 'preact/hooks';
import { mixedAs, versionAt } from '#calc/mixed-as.ts';
import type { Said, SaidOf } from '#model/entry.ts';
import type { Instant } from '#model/schemas.ts';
import { volumeText } from '#screens/number-text.ts';
import { lastTold } from '#screens/pour/last-told.ts';
import { countedWords } from '#screens/pour/mixed-as-words.ts';
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
  const version = colourway ? versionAt(open.mixes, colourway.id, open.line.at) : null;
  const typed = said.pots.map((pot, index) => typedVolume(texts[index] ?? '', pot.volumeMl, unit));
  const volumes = typed.flatMap((one) => ('volumeMl' in one ? one.volumeMl : []));
  const pots = said.pots.map((pot, index) => {
    const one = typed[index];
    return one && 'volumeMl' in one ? { ...pot, volumeMl: one.volumeMl } : pot;
  });
  const mix = colourway ? mixedAs({ ...said, pots }, colourway, version) : { ...said, pots };

  function read(): Said | null {
    setRefusals(typed.map((one) => ('refusal' in one ? one.refusal : undefined)));
    return volumes.length < mix.pots.length ? null : mix;
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
      {colourway && <p>{countedWords(mix, version)}</p>}
      {mix.pots.map(({ potId, name }, index) => (
        <VolumeField
          key={potId}
          label={name}
          unit={unit}
          text={texts[index] ?? ''}
          last={lastTold(open)}
          error={refusals[index]}
          onText={(text) => setTexts(texts.with(index, text))}
        />
      ))}
    </PutRightForm>
  );
}
