import { useState } from 'preact/hooks';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import { ChooseFile } from '#screens/keep/ChooseFile.tsx';
import { ComingList } from '#screens/keep/ComingList.tsx';
import { LastIn } from '#screens/keep/LastIn.tsx';
import { useOpening } from '#screens/keep/use-opening.ts';
import { Refusal } from '#screens/Refusal.tsx';
import { hrefTo } from '#screens/routes.ts';
import { UnlockForm } from '#screens/UnlockForm.tsx';
import { Work } from '#screens/Work.tsx';
import { isNothing } from '#store/copy/difference.ts';
import { footingOf, footingTables } from '#store/footing.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { DeskPage } from '#ui/DeskPage.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import { ToolKey } from '#ui/ToolKey.tsx';

/** Opens a copy: what it would do, then doing it, then the way back. */
export function OpenCopyScreen() {
  const { book } = useShop();
  const footing = useLive(() => footingOf(book), footingTables, 'footing');
  const { stage, trouble, read, bring, leave, stop } = useOpening();
  const [isUndone, setIsUndone] = useState(false);
  if (!footing) return null;
  const { isEmpty, hasRunning } = footing;
  const isBusy = stage.at === 'reading' || stage.at === 'bringing';
  return (
    <DeskPage
      title="Open a copy"
      small="From this phone before, or from another one"
      shape="wall"
      tool={
        isEmpty ? (
          <ToolKey href={hrefTo({ at: 'start' })} icon="back" word="Start" />
        ) : (
          <ToolKey href={hrefTo({ at: 'workshop' })} icon="back" word="Workshop" />
        )
      }
    >
      {hasRunning && stage.at !== 'done' && !isBusy && (
        <Sheet tone="care">
          <p>A session runs here. Finish it first: nothing may move under your hand.</p>
          <ActKey href={hrefTo({ at: 'table' })}>To the table</ActKey>
        </Sheet>
      )}
      {stage.at === 'choose' && !hasRunning && (
        <ChooseFile trouble={trouble} onChosen={(file) => void read(file, null)} />
      )}
      {stage.at === 'words' && (
        <UnlockForm
          file={stage.file}
          typed={stage.typed}
          trouble={trouble}
          onWords={(words) => void read(stage.file, words)}
          onLeave={leave}
        />
      )}
      {isBusy && (
        <Work
          title={stage.at === 'reading' ? 'Reading the file' : 'Bringing it in'}
          share={stage.share}
          onStop={stop}
        />
      )}
      {stage.at === 'told' && (
        <Sheet title="This file" aside={stage.file.name}>
          <ComingList difference={stage.difference} tense="will" />
          {!isNothing(stage.difference) && !hasRunning && (
            <>
              <p>A copy of what is here now is kept first. You can undo it.</p>
              <ActKey size="main" onPress={() => void bring(stage)}>
                Bring it in
              </ActKey>
            </>
          )}
          <Refusal says={trouble} />
          <ActKey onPress={leave}>Leave it</ActKey>
        </Sheet>
      )}
      {stage.at === 'done' && (
        <Sheet title="It is in">
          <ComingList difference={stage.difference} tense="did" />
          <ActKey size="main" href={hrefTo({ at: 'pour' })}>
            To the log
          </ActKey>
        </Sheet>
      )}
      {isUndone && stage.at === 'choose' && (
        <Sheet>
          <p role="status">Undone: the logbook is as it was before.</p>
        </Sheet>
      )}
      {!isBusy && (
        <LastIn
          key={stage.at}
          onUndone={() => {
            setIsUndone(true);
            leave();
          }}
        />
      )}
    </DeskPage>
  );
}
