import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';
import { useShop } from '#live/shop.ts';
import type { Colourway, Injector } from '#model/gear.ts';
import type { Mould, MouldId } from '#model/mould.ts';
import { ChoiceKeys } from '#screens/start/ChoiceKeys.tsx';
import { ColourKeys } from '#screens/start/ColourKeys.tsx';
import { LoadLine } from '#screens/start/LoadLine.tsx';
import { MouldKey } from '#screens/start/MouldKey.tsx';
import { StartFoot } from '#screens/start/StartFoot.tsx';
import { useOneAct } from '#screens/use-one-act.ts';
import type { VolumeUnit } from '#screens/volumes.ts';
import { joined } from '#screens/words.ts';
import { type PouredWith, startPouring } from '#store/start.ts';
import { DeskPage } from '#ui/DeskPage.tsx';
import styles from './LineUp.module.css';

interface Props {
  moulds: readonly Mould[];
  colourways: readonly Colourway[];
  injectors: readonly Injector[];
  hasReadCautions: boolean;
  volumeUnit: VolumeUnit;
  /** What is chosen at first, from an old session; null: nothing. */
  like: PouredWith | null;
  /** The way out of the page. */
  back: ComponentChildren;
}

const mostMoulds = 3;

/** One to three moulds in their order, a colour and an injector to be chosen, and the start. */
export function LineUp(props: Props) {
  const { moulds, colourways, injectors, hasReadCautions, volumeUnit, like, back } = props;
  const { book, clock } = useShop();
  const [chosen, setChosen] = useState<readonly MouldId[]>(() =>
    (like?.moulds ?? []).map(({ id }) => id),
  );
  const [colours, setColours] = useState<Colourway[]>(() =>
    colourways.filter(({ id }) => id === like?.colourway?.id),
  );
  const [injector, setInjector] = useState<Injector | null>(
    () => injectors.find(({ id }) => id === like?.injectorId) ?? null,
  );
  const [refusal, setRefusal] = useState('');
  const { act, trouble } = useOneAct();

  function press({ id }: Mould) {
    setRefusal('');
    if (chosen.includes(id)) return setChosen(chosen.filter((other) => other !== id));
    if (chosen.length < mostMoulds) return setChosen([...chosen, id]);
    setRefusal('Three moulds fill the table. Press one of them to take it off first.');
  }

  const start = () =>
    act(async () => {
      const beginning = {
        mouldIds: chosen,
        injectorId: injector?.id ?? null,
        colourwayId: colours[0]?.id ?? null,
        planned: colours.map(({ id }) => id),
        zone: clock.zone(),
      };
      await startPouring(book, beginning, clock.now());
      return { at: hasReadCautions ? 'table' : 'cautions' };
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
        <ColourKeys choices={colourways} chosen={colours} onChoose={setColours} />
        <ChoiceKeys
          title="Which injector?"
          none="None"
          choices={injectors}
          chosen={injector}
          onChoose={setInjector}
        />
        <LoadLine moulds={lined} injectors={injectors} injector={injector} unit={volumeUnit} />
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
