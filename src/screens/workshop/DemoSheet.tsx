import { ActKey } from '#ui/ActKey.tsx';
import { Sheet } from '#ui/Sheet.tsx';

/** The way into the demo shop. */
export function DemoSheet() {
  return (
    <Sheet title="Demo shop">
      <p>Four months of a made-up shop to look round in. It never mixes with yours.</p>
      <ActKey href="./?demo#/moulds">Look round a demo shop</ActKey>
    </Sheet>
  );
}
