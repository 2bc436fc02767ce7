import styles from './TwinTable.module.css';

interface Props {
  heads: readonly string[];
  rows: readonly (readonly (string | number)[])[];
}

/** The table that stands behind every picture, one press away. */
export function TwinTable({ heads, rows }: Props) {
  return (
    <details class={styles.twin}>
      <summary>As a table</summary>
      <table>
        <thead>
          <tr>
            {heads.map((head) => (
              <th key={head} scope="col">
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map(([first, ...rest], row) => (
            <tr key={`${row + 1} ${first}`}>
              <th scope="row">{first}</th>
              {rest.map((cell, index) => (
                <td key={heads[index + 1]}>{cell}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </details>
  );
}
