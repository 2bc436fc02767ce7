/** What to mind before anything is heated. Each line has its source in DEVELOPERS.md. */
export const cautions = [
  'Moulds, tools and remelt dry. A drop of water spits hot plastic.',
  'Fan on, door open. Overheated PVC gives off hydrogen chloride: if it yellows, smokes or smells sharp, stop heating and go to fresh air.',
  'Hot plastic sticks and burns. Gloves, long sleeves, eyes covered. Hold a burn under cool running water for 20 minutes and get help.',
  'Release agent wiped thin and dry before plastic goes in: what is wet there spits, too.',
  'A microwave, oven or pot that has held plastic never holds food again.',
  'Never leave a hot pot alone.',
] as const;

/** Who decides, when this list and the world disagree. */
export const whoDecides = 'Your safety data sheets, local code and a licensed professional decide.';
