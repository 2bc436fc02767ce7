import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';
import type { Evening } from '#calc/evening.ts';
import { useShop } from '#live/shop.ts';
import type { Colourway, ColourwayId, Injector, InjectorId } from '#model/gear.ts';
import type { Mould, MouldId } from '#model/mould.ts';
import type { Carry } from '#model/settings.ts';
import { CarriedSheet } from '#screens/start/CarriedSheet.tsx';
import { ChoiceKeys } from '#screens/start/ChoiceKeys.tsx';
import { ColourKeys } from '#screens/start/ColourKeys.tsx';
import { type Field, fromWords, thenOf } from '#screens/start/carried.ts';
import { LoadLine } from '#screens/start/LoadLine.tsx';
import { MouldKey } from '#screens/start/MouldKey.tsx';
import { StartFoot } from '#screens/start/StartFoot.tsx';
import { useCarried } from '#screens/start/use-carried.ts';
import { useOneAct } from '#screens/use-one-act.ts';
import { joined } from '#screens/words.ts';
import { keepAsks } from '#store/asks.ts';
import type { SettingsFacts } from '#store/settings.ts';
import { type PouredWith, startPouring } from '#store/start.ts';
import { DeskPage } from '#ui/DeskPage.tsx';
import styles from './LineUp.module.css';

interface Props {
  moulds: readonly Mould[];
  colourways: readonly Colourway[];
  injectors: readonly Injector[];
  settings: SettingsFacts;
  /** What the last session was poured with; null: there was none. */
  last: PouredWith | null;
  /** What is chosen at first, from an old session; null: nothing. */
  like: Evening | null;
  /** The way out of the page. */
  back: ComponentChildren;
}

const mostMoulds = 3;

/** One to three moulds in their order, a colour and an injector to be chosen, and the start. */
export function LineUp(props: Props) {
  const { moulds, colourways, injectors, settings, last, like, back } = props;
  const { book, clock } = useShop();
  const then = like && thenOf(like, props);
  const of = useCarried(then, settings);
  const isAsThen = (field: Field) => of.carried(field) === 'as-then';
  const [chosen, setChosen] = useState<readonly MouldId[]>(() =>
    then && isAsThen('moulds') ? then.moulds.map(({ id }) => id) : [],
  );
  const [colourIds, setColours] = useState<readonly ColourwayId[]>(() =>
    then && isAsThen('colours') ? then.colours.map(({ id }) => id) : [],
  );
  const [injectorId, setInjector] = useState<InjectorId | null>(() =>
    then && isAsThen('injector') ? (then.injector?.id ?? null) : null,
  );
  const colours = colourIds.flatMap((id) => colourways.find((one) => one.id === id) ?? []);
  const injector = injectors.find(({ id }) => id === injectorId) ?? null;
  const [refusal, setRefusal] = useState('');
  const { act, trouble } = useOneAct();

  function press({ id }: Mould) {
    setRefusal('');
    of.chosenByHand('moulds');
    if (chosen.includes(id)) return setChosen(chosen.filter((other) => other !== id));
    if (chosen.length < mostMoulds) return setChosen([...chosen, id]);
    setRefusal('Three moulds fill the table. Press one of them to take it off first.');
  }

  function carry(field: Field, how: Carry) {
    const old = how === 'as-then' ? then : null;
    of.choose(field, how);
    setRefusal('');
    if (field === 'moulds') setChosen(old?.moulds.map(({ id }) => id) ?? []);
    if (field === 'colours') setColours(old?.colours.map(({ id }) => id) ?? []);
    if (field === 'injector') setInjector(old?.injector?.id ?? null);
  }

  const start = () =>
    act(async () => {
      const beginning = {
        mouldIds: chosen,
        injectorId: injector?.id ?? null,
        colourwayId: colours[0]?.id ?? null,
        planned: colours.map(({ id }) => id),
        zone: clock.zone(),
        ...of.beginning(),
      };
      keepAsks(book, await startPouring(book, beginning, clock.now()), of.asks);
      return { at: settings.cautionsReadAt === null ? 'cautions' : 'table' };
    });

  const lined = chosen.flatMap((id) => moulds.find((mould) => mould.id === id) ?? []);
  const names = lined.map(({ name }) => name);
  return (
    <>
      <DeskPage
        title="Which moulds?"
        small={like ? 'As that evening: change what you like' : 'One to three, in their order'}
        tool={back}
        shape="wall"
      >
        {like && of.rows.length > 0 && (
          <CarriedSheet
            title={fromWords(like, clock.now())}
            rows={of.rows}
            carryOf={of.carryNow}
            onCarry={carry}
          />
        )}
        <div class={styles.moulds} role="group" aria-label="Moulds">
          {moulds.map((mould) => (
            <MouldKey
              key={mould.id}
              mould={mould}
              place={chosen.indexOf(mould.id) + 1}
              onPress={() => press(mould)}
            />
          ))}
        </div>
        <ColourKeys
          choices={colourways}
          chosen={colours}
          lastId={last?.colourway?.id ?? null}
          onChoose={(next) => {
            of.chosenByHand('colours');
            setColours(next.map(({ id }) => id));
          }}
        />
        <ChoiceKeys
          title="Which injector?"
          none="None"
          choices={injectors}
          chosen={injector}
          lastId={last?.injectorId ?? null}
          onChoose={(next) => {
            of.chosenByHand('injector');
            setInjector(next?.id ?? null);
          }}
        />
        <LoadLine
          moulds={lined}
          injectors={injectors}
          injector={injector}
          unit={settings.volumeUnit}
        />
      </DeskPage>
      <StartFoot
        small={names.length > 0 ? joined(names) : null}
        first="Choose a mould to start."
        refusal={refusal || trouble}
        onStart={() => void start()}
      />
    </>
  );
}
