// The least that filing a file as evidence can be: read it, hash it, write it. Usage: bareCopy.mjs FROM TO
import { createHash } from 'node:crypto';
import { readFileSync, writeFileSync } from 'node:fs';

const [, , from, to] = process.argv;
const bytes = readFileSync(from);
console.log(createHash('sha256').update(bytes).digest('hex'));
writeFileSync(to, bytes);
