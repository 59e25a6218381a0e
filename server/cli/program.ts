/** Runs a command line. */

import { Command, CommanderError } from 'commander';
import { version } from '../../package.json';
import { sanitizeForLog } from '../show/sanitize.ts';
import { COMMANDS, type Running } from './commands.ts';
import { examplesOf, OVERVIEW } from './help.ts';
import { EXIT_CLEAN, EXIT_FAILURE, faultText, type Io } from './io.ts';
import { shareValues } from './options.ts';

/** Runs one command line (without node and script). Returns the exit code: 0, 1 or 2. */
export async function run(args: readonly string[], terminal: Io): Promise<number> {
  // Messages may contain file names and git output.
  const io: Io = { ...terminal, err: text => terminal.err(sanitizeForLog(text)) };
  let code = EXIT_CLEAN;
  const done = (result: number) => {
    code = result;
  };
  try {
    await programFor(args[0], { io, done }).parseAsync([...args], { from: 'user' });
    return code;
  } catch (error) {
    if (error instanceof CommanderError) return error.exitCode === 0 ? EXIT_CLEAN : EXIT_FAILURE;
    io.err(`soundwood: ${faultText(error, io.debug)}\n`);
    return EXIT_FAILURE;
  }
}

/** @param word the first of the command line: where it names a command, only that one is defined, which is faster */
function programFor(word: string | undefined, running: Running): Command {
  const { io } = running;
  const program = new Command('soundwood')
    .description('Checks tree inventories: tests each prescription against the evidence.')
    .version(version, '-V, --version', 'print the version')
    .option('--debug', 'show where an internal error happened')
    .exitOverride()
    .configureOutput({ writeOut: io.out, writeErr: io.err })
    .showSuggestionAfterError()
    .showHelpAfterError('(soundwood --help lists the commands)')
    .configureHelp({ subcommandTerm: command => command.name() })
    .addHelpText('after', OVERVIEW)
    .hook('preAction', (_program, command) => shareValues(command));
  const named = COMMANDS.find(({ name, earlierName }) => word === name || word === earlierName);
  for (const { name, earlierName, group, define } of named ? [named] : COMMANDS) {
    const command = program.commandsGroup(group).command(name);
    if (earlierName !== undefined) command.alias(earlierName);
    command.showHelpAfterError(`(soundwood ${name} --help shows its arguments and options)`);
    define(command, running);
    const examples = examplesOf(name);
    if (examples !== undefined) command.addHelpText('after', examples);
  }
  return program;
}
