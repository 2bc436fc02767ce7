import { useState } from 'preact/hooks';
import { newestLot } from '#calc/opened.ts';
import { useShop } from '#live/shop.ts';
import type { MaterialKind } from '#model/material.ts';
import type { Movement } from '#model/movement.ts';
import { Refusal } from '#screens/Refusal.tsx';
import { hrefTo } from '#screens/routes.ts';
import { Journal } from '#screens/shelf/Journal.tsx';
import { LevelSheet } from '#screens/shelf/LevelSheet.tsx';
import { MeasureSheet } from '#screens/shelf/MeasureSheet.tsx';
import { MoveForm } from '#screens/shelf/MoveForm.tsx';
import type { TypedKind } from '#screens/shelf/move-form.ts';
import { type Jar, kindWords, unitsOf } from '#screens/shelf/shelf-view.ts';
import { TakeOff } from '#screens/TakeOff.tsx';
import { useOneAct } from '#screens/use-one-act.ts';
import { setDeleted } from '#store/heads.ts';
import { isNameless } from '#store/nameless-materials.ts';
import type { SettingsFacts } from '#store/settings.ts';
import { moveStock } from '#store/stock.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { DeskPage } from '#ui/DeskPage.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import { ToolKey } from '#ui/ToolKey.tsx';
import styles from './MaterialPage.module.css';

interface Props {
  jar: Jar;
  movements: readonly Movement[];
  settings: SettingsFacts;
}

/** Kinds whose look can be read off a bait on a card. */
const coloursBaits = new Set<MaterialKind>(['plastisol', 'colourant']);

const kinds: readonly (readonly [TypedKind, string])[] = [
  ['bought', 'Bought'],
  ['counted', 'Weighed or counted'],
  ['lost', 'Lost'],
];

/** The page of one material. */
export function MaterialPage({ jar, movements, settings }: Props) {
  const { book, clock, touch } = useShop();
  const { act, trouble } = useOneAct();
  const [open, setOpen] = useState<TypedKind | null>(null);
  const { material } = jar;
  const units = unitsOf(settings);

  function stillRight() {
    void act(async () => {
      const at = clock.now();
      await moveStock(book, material.id, { kind: 'checked' }, { at, writtenAt: at, note: '' });
      touch.confirm();
      return null;
    }, 'checked');
  }

  function openNew() {
    void act(async () => {
      const at = clock.now();
      const says = { kind: 'opened', lot: newestLot(jar.stock) } as const;
      await moveStock(book, material.id, says, { at, writtenAt: at, note: '' });
      touch.confirm();
      return null;
    }, 'opened');
  }

  return (
    <DeskPage
      title={material.name}
      small={`${kindWords[material.kind][0]}${material.isAside ? ', set aside' : ''}`}
      tool={<ToolKey href={hrefTo({ at: 'shelf' })} icon="back" word="Shelf" />}
    >
      <div class={styles.column}>
        <LevelSheet jar={jar} units={units} />
        <div class={styles.keys}>
          {kinds.map(([kind, word]) => (
            <ActKey
              key={kind}
              isPressed={open === kind}
              onPress={() => setOpen(open === kind ? null : kind)}
            >
              {word}
            </ActKey>
          ))}
          <ActKey onPress={stillRight}>Still right</ActKey>
          {material.unit !== 'piece' && <ActKey onPress={openNew}>Opened a new one</ActKey>}
        </div>
        <Refusal says={trouble} />
        {open && (
          <MoveForm
            key={open}
            kind={open}
            {...{ jar, units }}
            // Another may have been opened, and typed in, while this one was written.
            onDone={() => setOpen((now) => (now === open ? null : now))}
          />
        )}
      </div>
      <Journal jar={jar} movements={movements} units={units} />
      <MeasureSheet material={material} units={units} />
      <Sheet title="This material">
        <ActKey href={hrefTo({ at: 'material-facts', materialId: material.id })}>
          {isNameless(material) ? 'Give it its name' : 'Change its facts'}
        </ActKey>
        {coloursBaits.has(material.kind) && (
          <ActKey href={hrefTo({ at: 'card', materialId: material.id })}>
            Read its colour off a card
          </ActKey>
        )}
        <TakeOff
          deletedAt={material.deletedAt}
          list={{ at: 'shelf' }}
          onSet={(next, at) => setDeleted(book, 'materials', material.id, next, at)}
        />
        <p>Old mixes and the journal keep it. Workshop can bring it back.</p>
      </Sheet>
    </DeskPage>
  );
}
