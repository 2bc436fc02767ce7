import { ShortName } from '#model/schemas.ts';
import { useForm } from '#screens/form.ts';
import type { Change } from '#screens/use-settings.ts';
import type { SettingsFacts } from '#store/settings.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Field } from '#ui/Field.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import styles from './Rows.module.css';

interface Props {
  settings: SettingsFacts;
  onChange: (next: Change) => void;
}

const fields = ['first', 'second'] as const;

/** The two who share this phone. There is no account: a name is only written beside what was poured. */
export function PeopleSheet({ settings, onChange }: Props) {
  const [first = '', second = ''] = settings.people ?? [];
  const { typed, change, refusals, refuse, form } = useForm({ first, second });

  function save() {
    const names = fields.map((field) => typed[field].trim());
    const wrong = Object.fromEntries(
      fields.flatMap((field, index) => {
        const said = refusalOf(names, index);
        return said ? [[field, said]] : [];
      }),
    );
    if (Object.keys(wrong).length > 0) return refuse(wrong);
    onChange(() => ({ people: names.filter((name) => name !== '') }));
  }

  return (
    <Sheet title="Who pours" isFolded>
      <p>With two names here, one press on the table tells who pours.</p>
      <form
        class={styles.form}
        ref={form}
        noValidate
        onSubmit={(event) => {
          event.preventDefault();
          save();
        }}
      >
        {fields.map((field) => (
          <Field
            key={field}
            label={field === 'first' ? 'First name' : 'Second name'}
            error={refusals[field]}
          >
            {(attributes) => (
              <input
                {...attributes}
                autocomplete="off"
                value={typed[field]}
                onInput={({ currentTarget }) => change({ [field]: currentTarget.value })}
              />
            )}
          </Field>
        ))}
        <ActKey sends>Keep these names</ActKey>
      </form>
    </Sheet>
  );
}

function refusalOf(names: readonly string[], index: number): string | undefined {
  const name = names[index] ?? '';
  if (name === '') return undefined;
  if (names.indexOf(name) < index) return 'Give each a name of their own.';
  const read = ShortName.safeParse(name);
  return read.success ? undefined : read.error.issues[0]?.message;
}
