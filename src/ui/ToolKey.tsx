import { type Drawing, Icon } from '#ui/Icon.tsx';
import styles from './ToolKey.module.css';

/** The key at the top right of a desk page: a way to another page, with its word. */
export function ToolKey({ href, icon, word }: { href: string; icon: Drawing; word: string }) {
  return (
    <a class={styles.tool} href={href}>
      <Icon of={icon} />
      {word}
    </a>
  );
}
