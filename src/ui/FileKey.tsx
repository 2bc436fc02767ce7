import styles from './FileKey.module.css';

interface Props {
  word: string;
  accept: string;
  /** Opens the camera of the back at once, where the device has one. */
  takes?: boolean;
  size?: 'main';
  onFile: (file: File) => void;
}

/** A key that asks the device for a file. The same file can be given again. */
export function FileKey({ word, accept, takes, size, onFile }: Props) {
  return (
    <label class={styles.key} data-size={size}>
      <input
        type="file"
        accept={accept}
        capture={takes ? 'environment' : undefined}
        onChange={({ currentTarget }) => {
          const [file] = currentTarget.files ?? [];
          currentTarget.value = '';
          if (file) onFile(file);
        }}
      />
      <span>{word}</span>
    </label>
  );
}
