import { Field } from '#ui/Field.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import styles from './Keep.module.css';

/** The field that takes a file. Every file may be chosen: phones grey out endings they do not know. */
export function ChooseFile(props: { trouble: string; onChosen: (file: File) => void }) {
  return (
    <Sheet>
      <p>First you see what it brings. Nothing is written until you say so.</p>
      <Field
        label="The file"
        hint="Its name ends in .warmshot. Nothing here is lost: what is newer wins, line by line."
        error={props.trouble || undefined}
      >
        {(attributes) => (
          <div class={styles.file}>
            <input
              {...attributes}
              type="file"
              onChange={({ currentTarget }) => {
                const [file] = currentTarget.files ?? [];
                if (file) props.onChosen(file);
              }}
            />
          </div>
        )}
      </Field>
    </Sheet>
  );
}
