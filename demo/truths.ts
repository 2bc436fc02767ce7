/**
 * What is planted in the demo shop for the person to find, with the figures it is planted with.
 * The generator casts by them, the test looks for them, the README prints them.
 */
export const truths = {
  /** One cavity shorts in this share of warm shots until its vent is opened; then as the others do. */
  vent: {
    mould: 'grub',
    cavity: 6,
    shortShare: 0.32,
    openedInWeek: 9,
    note: 'Opened the vent of cavity 6',
  },
  /** Below this lead over the shop an aluminium mould shorts in this share of its cavities. */
  cold: {
    belowK: 15,
    /** Width of the change from cold to warm. */
    overK: 1.2,
    shortShare: 0.4,
    /** First shots of a session that are poured below the line. */
    firstShots: 2,
  },
  /** One colourway dents when its mould is opened early, and not when it stayed shut. */
  early: { colourway: 'dusk', dentShare: 0.3 },
  /** One injector of two shorts in this share of warm cavities. */
  injector: { worse: 'green', better: 'blue', shortShare: 0.065 },
  /** One colourant is so many times as strong as its card says. */
  colourant: { key: 'brown', times: 1.6 },
  /** What no shot accounts for: so much stays in pot and injector, and shots take a share more. */
  loss: { potMl: 18, share: 0.05, sdMl: 5 },
} as const;

/** How everything else runs, everywhere alike. */
export const usual = {
  shortShare: 0.02,
  dentShare: 0.008,
  /** Defects that nothing drives. */
  others: { bubble: 0.006, tear: 0.003, flash: 0.002, streak: 0.002 },
  /** How alike the cavities of one shot are. */
  rho: 0.12,
  /** How far the moulds truly are from what the heat model takes them for. */
  tauTimes: 0.96,
  uptakeTimes: 1.03,
  /** Share of rounds that are opened early, and how early: of the time that the mould usually has. */
  earlyRounds: 0.22,
  earlyFrom: 0.55,
  earlyTo: 0.7,
  /** How far off one colour read off a picture is, in each of L*, a* and b*. */
  cameraLab: 0.7,
} as const;

/** An opening counts as early below this share of the mould's usual time. */
export const earlyBelow = 0.8;
