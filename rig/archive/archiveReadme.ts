/** README.txt of every archive: what lies where, for whoever has no program to read it. */
export const ARCHIVE_README = `This folder is an archive of pump tests, in plain files that need no program to be read.

pumps/, strips/, benches/  records, a JSON file a version; none is ever overwritten
days/<pump>.jsonl     steps of its test days, done or skipped, a line each
runs/<day>-<number>/  run.json      what was true before the first byte
                      journal.log   each received line: microseconds, TAB, bytes (\\xHH outside 0x20-0x7E); or journal.csv
                      marks.jsonl   what the operator did and when
                      closing.json  how it ended, with the SHA-256 of the files above
                      exclusions.jsonl  what a person took out of the fit afterwards, and why
                      result.json   the analysis: can be made again from the files above
                      drawn.json    what is drawn of it: the same
certificates/         <number>.pdf, the same data as <number>.json and its signature <number>.jws;
                      <number>.withdrawn.json and .jws where a certificate was withdrawn: who, when, why
imports/<sha256>.json  what came in from another archive, and from which file
filing/               what is being filed at this moment; a filing that was cut off is ended at the next start
index.sqlite          can be made again from all of these
`;
