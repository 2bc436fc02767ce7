import { ComingList } from '#screens/keep/ComingList.tsx';
import { useTableIn } from '#screens/keep/use-table-in.ts';
import { Refusal } from '#screens/Refusal.tsx';
import { countWords } from '#screens/words.ts';
import { isNothing } from '#store/copy/difference.ts';
import type { InKind } from '#store/csv/fields.ts';
import type { Untaken } from '#store/csv/row.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Acts } from '#ui/Acts.tsx';
import { Field } from '#ui/Field.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import styles from './Keep.module.css';

const kinds: readonly [InKind, string, string][] = [
  ['moulds', 'Moulds', 'A line a mould. A name that is here already stays as it is here.'],
  ['materials', 'Materials', 'A line a material. A name that is here already stays as it is here.'],
  [
    'sessions',
    'Sessions',
    'A line for one shot or several. What a line does not tell stays unknown: no clock, no cold flag.',
  ],
];

/** A table that comes in: its kind, its file, its columns, what it would bring. */
export function TableIn() {
  const { kind, change, matched, choose, match, fields, told, look, bring, trouble } = useTableIn();
  const heads = matched?.rows[0]?.cells ?? [];
  return (
    <Sheet title="In">
      <Acts label="What the table holds">
        {kinds.map(([one, word]) => (
          <ActKey key={one} isPressed={kind === one} onPress={() => change(one)}>
            {word}
          </ActKey>
        ))}
      </Acts>
      <p>{kinds.find(([one]) => one === kind)?.[2]}</p>
      <Field label="The table" hint="A CSV file. Its first line names the columns.">
        {(attributes) => (
          <div class={styles.file}>
            <input
              {...attributes}
              type="file"
              onChange={({ currentTarget }) => {
                const [file] = currentTarget.files ?? [];
                if (file) void choose(file);
              }}
            />
          </div>
        )}
      </Field>
      {matched && (
        <>
          <h3>Which column tells what</h3>
          {fields.map(({ key, word, isNeeded }) => (
            <Field key={`${kind} ${key}`} label={isNeeded ? `${word} (needed)` : word}>
              {(attributes) => (
                <select
                  {...attributes}
                  value={matched.matching[key] ?? -1}
                  onChange={({ currentTarget }) => match(key, Number(currentTarget.value))}
                >
                  <option value={-1}>None</option>
                  {heads.map((head, column) => (
                    <option key={column} value={column}>
                      {head || `Column ${column + 1}`}
                    </option>
                  ))}
                </select>
              )}
            </Field>
          ))}
          <ActKey {...(told ? {} : { size: 'main' as const })} onPress={() => void look()}>
            Look at {countWords(matched.rows.length - 1, 'line')}
          </ActKey>
        </>
      )}
      {told && (
        <>
          <h3>{told.isIn ? 'It is in' : 'What it brings'}</h3>
          <ComingList difference={told.difference} tense={told.isIn ? 'did' : 'will'} />
          <NotTaken lines={told.untaken} />
          {!told.isIn && !isNothing(told.difference) && (
            <ActKey size="main" onPress={() => void bring()}>
              Bring it in
            </ActKey>
          )}
        </>
      )}
      <Refusal says={trouble} />
    </Sheet>
  );
}

/** Every line that is not taken, with its number in the file and why. */
function NotTaken({ lines }: { lines: readonly Untaken[] }) {
  if (lines.length === 0) return null;
  return (
    <details class={styles.list} open={lines.length <= 5}>
      <summary>{countWords(lines.length, 'line')} not taken</summary>
      <ul>
        {lines.map(({ line, reason }) => (
          <li key={line}>
            <b>{reason}</b>
            <small>line {line}</small>
          </li>
        ))}
      </ul>
    </details>
  );
}
