import { useState } from 'preact/hooks';
import type { Shot } from '#calc/table.ts';
import { countOf } from '#calc/tonight.ts';
import type { Result, ShotId } from '#model/entry.ts';
import type { FrozenMould } from '#model/mould.ts';
import { ResultMap } from '#screens/pour/ResultMap.tsx';
import { countedWords } from '#screens/result-words.ts';
import { defectWords } from '#screens/words.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Acts } from '#ui/Acts.tsx';
import styles from './PutRight.module.css';

/** A shot with what its cavities are said to have given so far. */
export interface MarkedShot {
  shot: Shot;
  mould: FrozenMould;
  results: readonly Result[];
}

/** Shots as they are written into the log. */
export type LoggedShots = { shotId: ShotId; results: Result[] }[];

interface Props {
  shots: readonly MarkedShot[];
  onSave: (shots: LoggedShots) => void;
  onLeave: () => void;
}

/** The map of every shot of one press: choose what it was, then press the cavities it was true of. */
export function PutRightResults({ shots, onSave, onLeave }: Props) {
  const [marks, setMarks] = useState(() => shots.map(({ results }) => results));
  const all = marks.flat();
  const order = shots[0]?.mould.defectOrder ?? [];
  const [tool, setTool] = useState<Result>(() =>
    all.includes('not-checked') ? 'good' : (order[0] ?? 'short'),
  );

  function press(index: number, cavity: number) {
    const results = marks[index] ?? [];
    const was = results[cavity - 1];
    setMarks(marks.with(index, results.with(cavity - 1, was === tool ? 'good' : tool)));
  }

  function save() {
    onSave(
      shots.map(({ shot }, index) => ({ shotId: shot.id, results: [...(marks[index] ?? [])] })),
    );
  }

  return (
    <div class={styles.form}>
      <p class={styles.hint}>Choose what it was, then press the cavities.</p>
      <div class={styles.tools} role="group" aria-label="What it was">
        {(['good', ...order, 'not-checked', 'closed'] as const).map((one) => (
          <ActKey key={one} isPressed={one === tool} onPress={() => setTool(one)}>
            {toolWords(one)}
          </ActKey>
        ))}
      </div>
      {shots.map(({ shot, mould }, index) => (
        <section key={shot.id} class={styles.shot}>
          {shots.length > 1 && <h3>{`${mould.name}, shot ${shot.number}`}</h3>}
          <ResultMap
            mould={mould}
            results={marks[index] ?? []}
            onPress={(cavity) => press(index, cavity)}
          />
        </section>
      ))}
      {all.includes('not-checked') && (
        <ActKey onPress={() => setMarks(marks.map(restGood))}>The rest was good</ActKey>
      )}
      <Acts>
        <ActKey onPress={onLeave}>Leave it</ActKey>
        <ActKey onPress={save}>Save {countedWords(countOf(all))}</ActKey>
      </Acts>
    </div>
  );
}

function restGood(results: readonly Result[]): Result[] {
  return results.map((result) => (result === 'not-checked' ? 'good' : result));
}

function toolWords(tool: Result): string {
  if (tool === 'good') return 'Good';
  if (tool === 'not-checked') return 'Not checked';
  return tool === 'closed' ? 'Closed off' : defectWords[tool];
}
