/** How the command line ends. */
export const EXIT = {
  done: 0,
  wrongUse: 2,
  /** The data do not allow it; the reason stands on stderr. */
  dataSayNo: 3,
  /** A file was changed or is not whole. */
  changed: 4,
  /** Whole, but signed by a key not known on this machine. */
  unknownKey: 5,
  /** Whole, but replaced or withdrawn since. */
  standsNoMore: 6,
} as const;
export type ExitCode = (typeof EXIT)[keyof typeof EXIT];
