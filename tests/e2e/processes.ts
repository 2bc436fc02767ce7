import { readdirSync, readFileSync } from 'node:fs';

interface Process {
  pid: number;
  parent: number;
  command: string;
}

/** Every process of this machine that can be read (Linux). */
function processes(): Process[] {
  return readdirSync('/proc').flatMap((name) => {
    if (!/^\d+$/.test(name)) return [];
    try {
      const status = readFileSync(`/proc/${name}/status`, 'utf8');
      const parent = Number(/^PPid:\s+(\d+)/m.exec(status)?.[1]);
      return [
        { pid: Number(name), parent, command: readFileSync(`/proc/${name}/cmdline`, 'utf8') },
      ];
    } catch {
      // It has ended meanwhile.
      return [];
    }
  });
}

/** The processes of the browser that uses this profile, the children of its own among them. */
export function processesOf(profile: string): number[] {
  const all = processes();
  const found = new Set(
    all.filter(({ command }) => command.includes(profile)).map(({ pid }) => pid),
  );
  for (let before = -1; before < found.size; ) {
    before = found.size;
    for (const { pid, parent } of all) if (found.has(parent)) found.add(pid);
  }
  found.delete(process.pid);
  return [...found];
}

/** Kills every process of the browser that uses this profile, as a phone does: at once. */
export function kill(profile: string): void {
  for (const pid of processesOf(profile)) {
    try {
      process.kill(pid, 'SIGKILL');
    } catch {
      // It went with its parent.
    }
  }
}
