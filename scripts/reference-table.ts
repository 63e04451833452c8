import { mkdirSync, writeFileSync } from 'node:fs';
import { allChecks } from '../tests/reference/all-checks.ts';
import { page } from '../tests/reference/table.ts';

/** Writes the table of outside checks into the documentation. Run: `tsx scripts/reference-table.ts`. */
const target = new URL('../schemas/reference/outside-checks.md', import.meta.url);
mkdirSync(new URL('./', target), { recursive: true });
writeFileSync(target, page(await allChecks()));
