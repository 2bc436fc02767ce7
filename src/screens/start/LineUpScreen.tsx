import { useState } from 'preact/hooks';
import { pictureSize, spotsOf } from '#calc/cavity-layout.ts';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import type { Colourway, Injector } from '#model/gear.ts';
import type { Mould, MouldId } from '#model/mould.ts';
import { hrefTo } from '#screens/routes.ts';
import { ChoiceKeys } from '#screens/start/ChoiceKeys.tsx';
import { countWords, joined } from '#screens/words.ts';
import { headsOf } from '#store/heads.ts';
import { runningEntries } from '#store/sessions.ts';
import { settingsOf } from '#store/settings.ts';
import { startPouring } from '#store/start.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { DeskPage } from '#ui/DeskPage.tsx';
import { GridPicture } from '#ui/GridPicture.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import { ToolKey } from '#ui/ToolKey.tsx';
import styles from './LineUpScreen.module.css';

const mostMoulds = 3;

/** Which moulds, which colour, which injector: the choice before a session. */
export function LineUpScreen() {
  const { book, clock } = useShop();
  const heads = useLive(
    async () => ({
      moulds: await headsOf(book, 'moulds'),
      colourways: await headsOf(book, 'colourways'),
      injectors: await headsOf(book, 'injectors'),
      isRunning: (await runningEntries(book)) !== null,
      settings: await settingsOf(book),
    }),
    ['moulds', 'colourways', 'injectors', 'entries', 'settings'],
    'line-up',
  );
  const [chosen, setChosen] = useState<readonly MouldId[]>([]);
  const [colourway, setColourway] = useState<Colourway | null>(null);
  const [injector, setInjector] = useState<Injector | null>(null);
  const [refusal, setRefusal] = useState('');
  if (!heads) return null;
  const back = <ToolKey href={hrefTo({ at: 'pour' })} icon="back" word="Pour" />;
  if (heads.isRunning) {
    return (
      <DeskPage title="A session is open" tool={back} shape="wall">
        <Sheet>
          <p>Finish it first, or change its moulds at the table.</p>
          <ActKey size="main" href={hrefTo({ at: 'table' })}>
            Go to the table
          </ActKey>
        </Sheet>
      </DeskPage>
    );
  }

  function press(mould: Mould) {
    setRefusal('');
    if (chosen.includes(mould.id)) return setChosen(chosen.filter((id) => id !== mould.id));
    if (chosen.length < mostMoulds) return setChosen([...chosen, mould.id]);
    setRefusal('Three moulds fill the table. Press one of them to take it off first.');
  }

  async function start(cautionsReadAt: number | null) {
    const beginning = {
      mouldIds: chosen,
      injectorId: injector?.id ?? null,
      colourwayId: colourway?.id ?? null,
      zone: clock.zone(),
    };
    await startPouring(book, beginning, clock.now());
    window.location.hash = hrefTo({ at: cautionsReadAt === null ? 'cautions' : 'table' });
  }

  const names = chosen.flatMap((id) => heads.moulds.find((mould) => mould.id === id)?.name ?? []);
  return (
    <>
      <DeskPage title="Which moulds?" small="One to three, in their order" tool={back} shape="wall">
        <div class={styles.moulds} role="group" aria-label="Moulds">
          {heads.moulds.map((mould) => (
            <MouldKey
              key={mould.id}
              mould={mould}
              place={chosen.indexOf(mould.id) + 1}
              onPress={() => press(mould)}
            />
          ))}
        </div>
        {refusal && (
          <p class={styles.refusal} role="alert">
            {refusal}
          </p>
        )}
        {heads.colourways.length > 0 && (
          <ChoiceKeys
            title="Which colour?"
            none="No name yet"
            choices={heads.colourways}
            chosen={colourway}
            wordOf={(one) => one.name}
            onChoose={setColourway}
          />
        )}
        {heads.injectors.length > 0 && (
          <ChoiceKeys
            title="Which injector?"
            none="None"
            choices={heads.injectors}
            chosen={injector}
            wordOf={(one) => one.name}
            onChoose={setInjector}
          />
        )}
      </DeskPage>
      <footer class={styles.foot}>
        {chosen.length > 0 ? (
          <ActKey
            size="main"
            small={joined(names)}
            onPress={() => void start(heads.settings.cautionsReadAt)}
          >
            Start pouring
          </ActKey>
        ) : (
          <p>Choose a mould to start.</p>
        )}
      </footer>
    </>
  );
}

function MouldKey(props: { mould: Mould; place: number; onPress: () => void }) {
  const { name, layout, opens, closed } = props.mould;
  const spots = spotsOf(layout, opens);
  return (
    <button
      type="button"
      class={styles.mould}
      aria-pressed={props.place > 0}
      onClick={props.onPress}
    >
      <GridPicture
        {...pictureSize(layout)}
        size="small"
        cells={spots.map(({ cavity, row, col }) => ({
          number: cavity,
          row,
          col,
          share: 0,
          isClosed: closed.includes(cavity),
        }))}
      />
      <b>{name}</b>
      <span class="said"> {countWords(spots.length, 'cavity', 'cavities')}</span>
      {props.place > 0 && (
        <>
          <span class="said"> mould </span>
          <i>{props.place}</i>
        </>
      )}
    </button>
  );
}
