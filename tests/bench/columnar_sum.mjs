// SPDX-License-Identifier: GPL-3.0-or-later
// A columnar SQL engine adds up stop and neck over a file: columnar_sum.mjs PACKAGE FILE. PACKAGE is
// the folder of the npm package @duckdb/node-api, wherever it was installed; with all cores, as it is.
import { createRequire } from 'node:module';
import { resolve } from 'node:path';

const [engine, file] = process.argv.slice(2).map((path) => resolve(path));
const { DuckDBInstance } = createRequire(import.meta.url)(engine);
const connection = await (await DuckDBInstance.create(':memory:')).connect();
const quoted = `'${file.replaceAll("'", "''")}'`;
const sum = await connection.runAndReadAll(`SELECT count(*), sum(stop + neck) FROM read_csv(${quoted})`);
console.log(sum.getRows().toString());
