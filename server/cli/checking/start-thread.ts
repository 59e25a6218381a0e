/** The file that a thread of `check` begins with. */

import { loadProgram } from '../load-program.ts';

void loadProgram(__dirname).checkThread();
