/** The folders of an archive; its README.txt says what lies in each. */
export const ARCHIVE_FOLDERS = [
  'pumps',
  'strips',
  'benches',
  'days',
  'people',
  'runs',
  'certificates',
  'attachments',
  'imports',
  'filing',
] as const;
