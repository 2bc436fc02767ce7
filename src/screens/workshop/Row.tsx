import type { ComponentChildren } from 'preact';

/** One line of a list of settings: what it is, how it stands, the key that changes it. */
export function Row(props: { title: string; says: string; children: ComponentChildren }) {
  return (
    <li>
      <h3>{props.title}</h3>
      <p>{props.says}</p>
      {props.children}
    </li>
  );
}
