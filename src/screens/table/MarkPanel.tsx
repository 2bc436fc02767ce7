import { useState } from 'preact/hooks';
import { pictureSize } from '#calc/cavity-layout.ts';
import { mapViewIn } from '#calc/map-view.ts';
import type { Seat, Shot } from '#calc/table.ts';
import type { Defect } from '#model/defect.ts';
import type { Result } from '#model/entry.ts';
import { CavityMap } from '#screens/table/CavityMap.tsx';
import { useCellRoom } from '#screens/table/key-size.ts';
import { badCavities, partWith, partWords, sameAsLast } from '#screens/table/marks.ts';
import { PartKeys } from '#screens/table/PartKeys.tsx';
import { PressKey } from '#screens/table/PressKey.tsx';
import { defectWords } from '#screens/words.ts';
import { useSize } from '#ui/use-size.ts';
import styles from './Table.module.css';

/** What a press on a cell sets: a defect, not checked, or closing the cavity off. */
export type Tool = Defect | 'not-checked' | 'closed';

interface Props {
  seat: Seat;
  place: number;
  shot: Shot;
  /** The logged shot before this one; null: none. */
  last: Shot | null;
  results: readonly Result[];
  /** The cavity that a pedal stands on; null: nobody walks the map. */
  walkedTo: number | null;
  /** Places of moulds that opened meanwhile. */
  due: readonly number[];
  onMark: (results: readonly Result[]) => void;
  onClose: (cavity: number, isClosed: boolean) => void;
  onCheckLater: () => void;
}

/** In less room than this the words between the two keys for parts stand above them, in a line of their own with its gap, CSS px. */
const narrowPx = 260;
const partNowPx = 34 + 8;

/** The cavity map: tap the bad ones. A defect key never alters cells that are marked. */
export function MarkPanel(props: Props) {
  const { seat, place, shot, last, results, walkedTo, due, onMark, onClose } = props;
  const order = seat.mould.defectOrder;
  const [tool, setTool] = useState<Tool>(order[0] ?? 'short');
  const [hasMore, setHasMore] = useState(false);
  const [part, setPart] = useState(0);
  const [body, room] = useSize<HTMLDivElement>();
  const cellRoom = useCellRoom();
  const isNarrow = room.widthPx < narrowPx;
  const partKeysPx = cellRoom.partKeysPx + (isNarrow ? partNowPx : 0);
  const view = mapViewIn({ ...room, ...cellRoom, partKeysPx }, pictureSize(seat.mould.layout));
  const lastBad = last ? badCavities(last.results) : [];
  const shownPart =
    walkedTo === null ? Math.min(part, view.parts - 1) : partWith(view, seat.mould, walkedTo);

  function pressCell(cavity: number) {
    const was = results[cavity - 1] ?? 'good';
    if (tool === 'closed') return onClose(cavity, was !== 'closed');
    if (was === 'closed') return;
    onMark(results.with(cavity - 1, was === tool ? 'good' : tool));
  }

  return (
    <section
      class={styles.mark}
      aria-label={`${seat.mould.name}, shot ${shot.number}`}
      data-more={hasMore || undefined}
    >
      <h2 class={styles.markTitle}>
        <i class={styles.badge}>{place}</i>
        <b>{seat.mould.name}</b>
        <span>
          shot {shot.number}
          {due.length === 0 && (
            <span class={`${styles.tip} ${styles.notTablet}`}>
              {tipWords(walkedTo !== null, hasMore, seat.mould.badSeen ?? 0)}
            </span>
          )}
        </span>
        {due.map((other) => (
          <i
            key={other}
            class={styles.badge}
            data-due
            role="img"
            aria-label={`Mould ${other} open`}
          >
            {other}
          </i>
        ))}
      </h2>
      <div class={styles.markBody} ref={body} data-parts={view.parts > 1 || undefined}>
        {hasMore ? (
          <MoreTools
            defects={order.slice(2)}
            tool={tool}
            onChoose={(next) => {
              setTool(next);
              setHasMore(false);
            }}
            onCheckLater={props.onCheckLater}
          />
        ) : (
          room.widthPx > 0 && (
            <>
              {view.parts > 1 && (
                <PartKeys
                  parts={partWords(view, seat.mould, results)}
                  part={shownPart}
                  most={
                    isNarrow ? 1 : Math.floor((room.widthPx + cellRoom.gapPx) / cellRoom.partKeysPx)
                  }
                  isNarrow={isNarrow}
                  onPress={setPart}
                />
              )}
              <CavityMap
                mould={seat.mould}
                results={results}
                lastBad={lastBad}
                view={view}
                part={shownPart}
                walkedTo={walkedTo}
                onPress={pressCell}
              />
            </>
          )
        )}
      </div>
      <div class={styles.defects} role="group" aria-label="What is wrong">
        {order.slice(0, 2).map((defect) => (
          <PressKey key={defect} isPressed={tool === defect} onPress={() => setTool(defect)}>
            {defectWords[defect]}
          </PressKey>
        ))}
        <ThirdKey {...props} lastBad={lastBad} />
        <PressKey
          isPressed={hasMore || !order.slice(0, 2).includes(tool as Defect)}
          onPress={() => setHasMore(!hasMore)}
        >
          {order.slice(0, 2).includes(tool as Defect) ? 'More' : toolWords(tool)}
        </PressKey>
      </div>
    </section>
  );
}

/** What to do, or, with all the keys shown, where their order comes from. */
function tipWords(isWalked: boolean, hasMore: boolean, badSeen: number): string {
  if (hasMore) return badSeen > 0 ? `: by your ${badSeen} bad ones` : ': the usual order';
  return isWalked ? ': hold if bad' : ': tap the bad ones';
}

/** Where some cavities are not checked: the key that calls the rest good. Else the one that repeats the last shot. */
function ThirdKey({ results, last, lastBad, onMark }: Props & { lastBad: readonly number[] }) {
  if (results.includes('not-checked')) {
    const rest = results.map((result) => (result === 'not-checked' ? 'good' : result));
    return <PressKey onPress={() => onMark(rest)}>Rest good</PressKey>;
  }
  if (!last || lastBad.length === 0) return null;
  return <PressKey onPress={() => onMark(sameAsLast(results, last.results))}>Same</PressKey>;
}

interface MoreProps {
  defects: readonly Defect[];
  tool: Tool;
  onChoose: (tool: Tool) => void;
  onCheckLater: () => void;
}

function MoreTools({ defects, tool, onChoose, onCheckLater }: MoreProps) {
  const tools: Tool[] = [...defects, 'not-checked', 'closed'];
  return (
    <div class={styles.more} role="group" aria-label="More">
      {tools.map((one) => (
        <PressKey key={one} isPressed={one === tool} onPress={() => onChoose(one)}>
          {toolWords(one)}
        </PressKey>
      ))}
      <PressKey onPress={onCheckLater}>Check later</PressKey>
    </div>
  );
}

function toolWords(tool: Tool): string {
  if (tool === 'not-checked') return 'Not checked';
  return tool === 'closed' ? 'Close off' : defectWords[tool];
}
