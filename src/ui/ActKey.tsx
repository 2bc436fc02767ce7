import type { ComponentChildren } from 'preact';
import styles from './ActKey.module.css';

interface Props {
  /** What the hand does; leave out for a key that leads somewhere. */
  onPress?: () => void;
  href?: string;
  /** `main`: the one next thing of the page; `big`: a tall key with a line of words under it. */
  size?: 'main' | 'big';
  small?: string;
  /** For keys that stay chosen. */
  isPressed?: boolean;
  /** Says more than the word on the key, for a screen reader; begins with that word. */
  label?: string;
  /** Sends the form around it. */
  sends?: boolean;
  children: ComponentChildren;
}

/** A key on a desk page: an edge and a word. */
export function ActKey(props: Props) {
  const { onPress, href, size, small, isPressed, label, sends, children } = props;
  const words = (
    <>
      {children}
      {small && <small>{small}</small>}
    </>
  );
  const looks = { class: styles.act, 'data-size': size, 'aria-label': label };
  if (href !== undefined) {
    return (
      <a href={href} {...looks}>
        {words}
      </a>
    );
  }
  return (
    <button
      type={sends ? 'submit' : 'button'}
      onClick={onPress}
      aria-pressed={isPressed}
      {...looks}
    >
      {words}
    </button>
  );
}
