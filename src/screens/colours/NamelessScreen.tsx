import { useState } from 'preact/hooks';
import { dayOf } from '#calc/days.ts';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import type { Mix, MixId } from '#model/mix.ts';
import { doseWords } from '#screens/dose-words.ts';
import { NotHere } from '#screens/NotHere.tsx';
import { Refusal } from '#screens/Refusal.tsx';
import { hrefTo } from '#screens/routes.ts';
import { TakeOff } from '#screens/TakeOff.tsx';
import { useOneAct } from '#screens/use-one-act.ts';
import { dateWords } from '#screens/words.ts';
import { headOf, setDeleted } from '#store/heads.ts';
import { nameMix } from '#store/mixes.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { DeskPage } from '#ui/DeskPage.tsx';
import { Field } from '#ui/Field.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import { ToolKey } from '#ui/ToolKey.tsx';
import styles from './Mix.module.css';

/** A mix that was made up at the table: what was in it, and the place to name it. */
export function NamelessScreen({ mixId }: { mixId: MixId }) {
  const { book, clock } = useShop();
  const found = useLive(
    async () => ({ mix: await headOf(book, 'mixes', mixId) }),
    ['mixes'],
    mixId,
  );
  if (!found) return null;
  const { mix } = found;
  if (!mix) return <NotHere what="This mix" back={{ at: 'colours' }} word="Colours" />;
  const day = dayOf(mix.createdAt, clock.zone());
  return (
    <DeskPage
      title="Made up at the table"
      small={dateWords(day, dayOf(clock.now(), clock.zone()))}
      shape="wall"
      tool={<ToolKey href={hrefTo({ at: 'colours' })} icon="back" word="Colours" />}
    >
      <Sheet title={`In ${Math.round(mix.baseMl)} mL`}>
        <ul class={styles.notes}>
          {mix.sides
            .flatMap(({ doses }) => doses)
            .map(({ materialId, name, amount, unit }) => (
              <li key={materialId}>
                {name}: {doseWords(amount, unit)}
              </li>
            ))}
        </ul>
      </Sheet>
      {mix.colourwayId === null && <NameForm mix={mix} />}
    </DeskPage>
  );
}

function NameForm({ mix }: { mix: Mix }) {
  const { book, clock } = useShop();
  const [name, setName] = useState('');
  const [swatch, setSwatch] = useState(mix.sides[0]?.swatch ?? '#d8d2c2');
  const [refusal, setRefusal] = useState<string>();
  const { act, trouble } = useOneAct();

  function save() {
    const plain = name.trim();
    if (plain === '' || plain.length > 60) {
      return setRefusal(plain === '' ? 'Give it a name.' : 'Keep the name to 60 letters.');
    }
    void act(async () => {
      const { id } = await nameMix(book, mix.id, { name: plain, swatch }, clock.now());
      return { at: 'colour', colourwayId: id };
    });
  }

  return (
    <Sheet title="Give it a name">
      <Field label="Name" error={refusal}>
        {(attributes) => (
          <input
            {...attributes}
            autocomplete="off"
            value={name}
            onInput={({ currentTarget }) => {
              setName(currentTarget.value);
              setRefusal(undefined);
            }}
          />
        )}
      </Field>
      <Field label="It looks like">
        {(attributes) => (
          <input
            {...attributes}
            type="color"
            value={swatch}
            onInput={({ currentTarget }) => setSwatch(currentTarget.value)}
          />
        )}
      </Field>
      <ActKey size="main" onPress={save}>
        Keep it as a colour
      </ActKey>
      <Refusal says={trouble} />
      <TakeOff
        deletedAt={mix.deletedAt}
        list={{ at: 'colours' }}
        onSet={(next, at) => setDeleted(book, 'mixes', mix.id, next, at)}
      />
    </Sheet>
  );
}
