import { type ChildProcessWithoutNullStreams, spawn } from 'node:child_process';

/**
 * The far end of a serial cable without hardware: a path that any program opens as a serial port, and the bytes seen
 * from the device's side.
 */
export interface PseudoTerminal {
  available: true;
  /** Device name to open, for example `/dev/pts/3`. */
  path: string;
  /**
   * Sends bytes to the program that has the port open. Returns false, and drops them, when so much is unread that a
   * real cable would have lost them as well.
   */
  write(bytes: Uint8Array | string): boolean;
  /** Sets the listener for bytes written to the port by the other side. */
  onData(listener: (bytes: Uint8Array) => void): void;
  /** Unplugs the cable: the open port disappears. Resolves when it is gone; may be called repeatedly. */
  unplug(): Promise<void>;
}

/** This system cannot create a pseudo-terminal; `reason` is a sentence that explains what is missing. */
export interface NoPseudoTerminal {
  available: false;
  reason: string;
}

/** Bytes that may wait unread before further ones are dropped, about six seconds of 115200 baud. */
const MOST_UNREAD_BYTES = 64 * 1024;

/**
 * Creates a raw pseudo-terminal with the program `script` of util-linux, which is part of every Linux distribution;
 * nothing has to be compiled. The small shell inside holds the terminal open between two openings by the other side,
 * and ends by itself if this process dies without unplugging.
 */
export async function openPseudoTerminal(): Promise<PseudoTerminal | NoPseudoTerminal> {
  if (process.platform !== 'linux') {
    return {
      available: false,
      reason: `Pseudo-terminals are made with the Linux program "script"; this is ${process.platform}.`,
    };
  }
  const inside = `stty raw -echo -echoctl -echok && tty && while kill -0 ${process.pid} 2>/dev/null; do sleep 3; done`;
  const child = spawn('script', ['-q', '-f', '-e', '-c', inside, '/dev/null'], {
    stdio: ['pipe', 'pipe', 'pipe'],
    env: { ...process.env, SHELL: '/bin/sh' },
  });
  // A write after the terminal is gone must not end the service; the end itself is reported by 'close'.
  child.stdin.on('error', () => {});

  const opened = await firstLine(child);
  if ('reason' in opened) return { available: false, reason: opened.reason };
  return terminalOf(child, opened.path, opened.rest);
}

function terminalOf(child: ChildProcessWithoutNullStreams, path: string, rest: Buffer): PseudoTerminal {
  let listener: ((bytes: Uint8Array) => void) | null = null;
  let early: Uint8Array[] = rest.length > 0 ? [rest] : [];
  child.stdout.on('data', (bytes: Buffer) => {
    if (listener) listener(bytes);
    else early.push(bytes);
  });
  const gone = new Promise<void>((resolve) => child.once('close', () => resolve()));
  return {
    available: true,
    path,
    write(bytes) {
      if (child.exitCode !== null || child.killed || child.stdin.writableLength > MOST_UNREAD_BYTES) return false;
      child.stdin.write(bytes);
      return true;
    },
    onData(next) {
      listener = next;
      const waiting = early;
      early = [];
      for (const bytes of waiting) next(bytes);
    },
    async unplug() {
      if (child.exitCode === null && child.signalCode === null) child.kill('SIGKILL');
      await gone;
    },
  };
}

/** The terminal's name is the first line of its output. */
function firstLine(
  child: ChildProcessWithoutNullStreams,
): Promise<{ path: string; rest: Buffer } | { reason: string }> {
  return new Promise((resolve) => {
    let seen = Buffer.alloc(0);
    let complaint = '';
    const finish = (outcome: { path: string; rest: Buffer } | { reason: string }) => {
      child.stdout.removeAllListeners('data');
      child.removeAllListeners('error');
      child.removeAllListeners('exit');
      child.on('error', () => {});
      resolve(outcome);
    };
    child.stderr.on('data', (bytes: Buffer) => {
      complaint = (complaint + bytes.toString('utf8')).slice(0, 400);
    });
    child.stdout.on('data', (bytes: Buffer) => {
      seen = Buffer.concat([seen, bytes]);
      const end = seen.indexOf('\n');
      if (end < 0) return;
      const line = seen.toString('latin1', 0, end).trim();
      if (line.startsWith('/dev/')) finish({ path: line, rest: seen.subarray(end + 1) });
      else {
        child.kill('SIGKILL');
        finish({ reason: `The program "script" answered "${line}" where the name of a terminal was expected.` });
      }
    });
    child.once('error', (error: NodeJS.ErrnoException) => {
      finish({
        reason:
          error.code === 'ENOENT'
            ? 'The program "script" (package util-linux or bsdutils) is not installed, so no pseudo-terminal can be made.'
            : `The program "script" could not be started: ${error.message}`,
      });
    });
    child.once('exit', (code) => {
      finish({
        reason: `The program "script" ended at once (code ${code}): ${complaint.trim() || 'no reason given'}.`,
      });
    });
  });
}
