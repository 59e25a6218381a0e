/** A Slurm of its own for a test file: one node, on the loopback, all of it in a folder that goes with it. */

import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { randomBytes } from 'node:crypto';
import { lookup } from 'node:dns/promises';
import { existsSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { hostname, tmpdir, userInfo } from 'node:os';
import { join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import { HANG } from '../hang.ts';

export interface Slurm {
  /** What its clients have to find in the environment. */
  readonly environment: Readonly<Record<string, string>>;
  readonly end: () => Promise<void>;
}

/** Debian keeps daemons where not everybody's path leads. */
const environment = { ...process.env, PATH: `${process.env.PATH}:/usr/sbin:/sbin` } as Record<string, string>;

const PROGRAMS = ['munged', 'slurmctld', 'slurmd', 'sbatch'];

const node = hostname().split('.')[0]!;

/** The address that the machine's own name stands for: where Slurm listens, unless it is to listen everywhere. */
const address = async (): Promise<string | undefined> =>
  (await lookup(node, { family: 4 }).catch(() => undefined))?.address;

/** Why it can't be tried here; undefined where it can. */
export async function whyNoSlurm(): Promise<string | undefined> {
  const missing = PROGRAMS.filter(
    name => spawnSync(name, ['--version'], { env: environment, stdio: 'ignore' }).error,
  );
  // Where all tests have to run, .ci/run installs them, and the failure is that of a test.
  if (missing.length > 0 && process.env.CI !== 'true')
    return `no ${missing.join(', ')} here (apt-get install slurmctld slurmd slurm-client munge)`;
  return (await address())?.startsWith('127.')
    ? undefined
    : `the name ${node} of this machine stands for no address of the loopback, and tests listen on no other`;
}

async function freePort(): Promise<number> {
  const server = createServer();
  await new Promise<void>(resolve => server.listen(0, '127.0.0.1', resolve));
  const listens = server.address();
  await new Promise(resolve => server.close(resolve));
  if (listens === null || typeof listens === 'string') throw new Error('no port');
  return listens.port;
}

const configuration = (folder: string, at: string, ports: readonly number[]) => `ClusterName=here
SlurmctldHost=${node}(${at})
SlurmctldPort=${ports[0]}
SlurmdPort=${ports[1]}
CommunicationParameters=NoCtldInAddrAny,NoInAddrAny
SlurmUser=${userInfo().username}
SlurmdUser=${userInfo().username}
AuthType=auth/munge
AuthInfo=socket=${folder}/munge/socket
StateSaveLocation=${folder}/state
SlurmdSpoolDir=${folder}/spool
SlurmctldPidFile=${folder}/slurmctld.pid
SlurmdPidFile=${folder}/slurmd.pid
SlurmctldLogFile=${folder}/slurmctld.log
SlurmdLogFile=${folder}/slurmd.log
ProctrackType=proctrack/pgid
TaskPlugin=task/none
JobAcctGatherType=jobacct_gather/none
AccountingStorageType=accounting_storage/none
SelectType=select/cons_tres
SelectTypeParameters=CR_Core
SchedulerParameters=sched_interval=1,bf_interval=1
MpiDefault=none
ReturnToService=2
NodeName=${node} NodeAddr=${at} CPUs=1 State=UNKNOWN
PartitionName=here Nodes=ALL Default=YES MaxTime=INFINITE State=UP
`;

/** Brings it up. Throws, with what its daemons said, where its node does not become idle. */
export async function startSlurm(): Promise<Slurm> {
  const folder = mkdtempSync(join(tmpdir(), 'slurm-'));
  for (const name of ['munge', 'state', 'spool']) mkdirSync(join(folder, name));
  writeFileSync(join(folder, 'munge/key'), randomBytes(128), { mode: 0o600 });
  const own = { ...environment, SLURM_CONF: join(folder, 'slurm.conf') };
  writeFileSync(
    own.SLURM_CONF,
    configuration(folder, (await address())!, [await freePort(), await freePort()]),
  );

  const daemons: ChildProcess[] = [];
  let said = '';
  const start = (program: string, ...args: string[]) => {
    const daemon = spawn(program, args, { env: own, stdio: ['ignore', 'pipe', 'pipe'] });
    for (const stream of [daemon.stdout, daemon.stderr])
      stream.on('data', (chunk: Buffer) => {
        said += chunk.toString();
      });
    daemon.once('error', ({ message }) => {
      said += `${message}\n`;
    });
    daemons.push(daemon);
  };
  /** Waits for a condition, as long as all daemons run. */
  const until = async (condition: () => boolean) => {
    for (const stop = Date.now() + HANG / 6; !condition(); await setTimeout(250)) {
      const ended = daemons.find(({ exitCode, signalCode }) => exitCode !== null || signalCode !== null);
      if (ended) throw new Error(`${ended.spawnfile} has ended`);
      if (Date.now() > stop) throw new Error('the node does not become idle');
    }
  };
  const end = async () => {
    for (const daemon of daemons.reverse()) {
      if (daemon.pid === undefined || daemon.exitCode !== null || daemon.signalCode !== null) continue;
      const ended = new Promise(resolve => daemon.once('exit', resolve));
      daemon.kill();
      await ended;
    }
    rmSync(folder, { recursive: true, force: true });
  };

  const munge = ['socket', 'pid', 'log', 'seed'].map(
    name => `--${name}${name === 'socket' ? '' : '-file'}=${folder}/munge/${name}`,
  );
  start('munged', '--foreground', '--force', `--key-file=${folder}/munge/key`, ...munge);
  try {
    await until(() => existsSync(join(folder, 'munge/pid')));
    start('slurmctld', '-c', '-D');
    start('slurmd', '-D');
    await until(() => {
      const sinfo = spawnSync('sinfo', ['--noheader', '--format=%T'], { env: own, encoding: 'utf8' });
      return sinfo.stdout?.trim() === 'idle';
    });
  } catch (error) {
    await end();
    throw new Error(`Slurm does not start here: ${(error as Error).message}.\n${said}`);
  }
  return { environment: own, end };
}
