/** What comes over the cards, or instead of them, in one piece. */
export { Elsewhere } from '#screens/table/Elsewhere.tsx';
export { HintLine } from '#screens/table/HintLine.tsx';
export { keyWalkerIn } from '#screens/table/key-walker.ts';
export { LayerState } from '#screens/table/LayerState.tsx';
export { MarkPanel } from '#screens/table/MarkPanel.tsx';
export { PotPanel } from '#screens/table/PotPanel.tsx';
export { PotsPanel } from '#screens/table/PotsPanel.tsx';
export { roundsLeftSum } from '#screens/table/rounds-left.ts';
export { StillPouring } from '#screens/table/StillPouring.tsx';
export { TablePanel } from '#screens/table/TablePanel.tsx';
