import type { ComponentChildren } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import styles from './DeskPage.module.css';

interface Props {
  title: string;
  /** A quiet line under the title. */
  small?: string;
  /** The key at the top right: back to where the person came from, or Workshop. */
  tool?: ComponentChildren;
  /** `wall`: one column over the whole width; `one`: a page about one thing, main sheet left. */
  shape?: 'wall' | 'one';
  children: ComponentChildren;
}

/** Head and body of a desk page. The title takes the focus, so that a screen reader says where one is. */
export function DeskPage({ title, small, tool, shape, children }: Props) {
  const head = useRef<HTMLHeadingElement>(null);
  useEffect(() => head.current?.focus({ preventScroll: true }), []);
  return (
    <>
      <header class={styles.top}>
        <h1 ref={head} tabIndex={-1}>
          {title}
          {small && <small>{small}</small>}
        </h1>
        {tool}
      </header>
      <main class={styles.page} data-shape={shape}>
        {children}
      </main>
    </>
  );
}
