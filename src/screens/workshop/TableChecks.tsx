import { keySizeWords, keysWords } from '#screens/key-words.ts';
import { hrefTo } from '#screens/routes.ts';
import { Row } from '#screens/workshop/Row.tsx';
import type { SettingsFacts } from '#store/settings.ts';
import { ActKey } from '#ui/ActKey.tsx';

/** Rows of the table's settings: what was found for gloves, sound and pedal, and the way to check again. */
export function TableChecks({ settings }: { settings: SettingsFacts }) {
  const { keySize, pedal } = settings;
  const rows = [
    ['Gloves', `Keys of the table: ${keySizeWords[keySize].toLowerCase()}.`, 'glove-check'],
    ['Sound', soundWords(settings), 'sound-check'],
    ['Pedal', pedalWords(pedal), 'pedal-check'],
  ] as const;
  return (
    <>
      {rows.map(([title, says, at]) => (
        <Row key={title} title={title} says={says}>
          <ActKey href={hrefTo({ at })} label={`Check ${title.toLowerCase()}`}>
            Check
          </ActKey>
        </Row>
      ))}
    </>
  );
}

function soundWords({ hearing, music }: SettingsFacts): string {
  if (hearing === 'watches') return 'No sound at the table: you watch instead.';
  if (hearing === 'heard') return 'You hear it over everything.';
  return music === null ? 'Not checked yet.' : 'Not heard yet.';
}

function pedalWords(pedal: SettingsFacts['pedal']): string {
  if (!pedal) return 'Usual keys: Page Down, Page Up, arrows.';
  return `Filled: ${keysWords(pedal.press, 'usual keys')}. Undo: ${keysWords(pedal.undo, 'usual keys')}.`;
}
