/** The program: hands the command line to main and its answer to the system. */

import { main } from './main.js';

process.exitCode = await main(process.argv.slice(2));
