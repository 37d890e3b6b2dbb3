/** The sockets of a process as the kernel lists them (Linux: /proc/PID/fd and /proc/PID/net). */
import { readdirSync, readFileSync, readlinkSync } from 'node:fs';

const tables = ['tcp', 'tcp6', 'udp', 'udp6', 'raw', 'raw6', 'icmp', 'icmp6', 'packet', 'netlink', 'unix'] as const;

/** The kind of every socket that process `pid` has open: 'unix', 'tcp' …, or 'unknown'. */
export function openSockets(pid: number): readonly string[] {
  const inodes = readdirSync(`/proc/${pid}/fd`).flatMap((fd) => {
    const inode = /^socket:\[(\d+)\]$/.exec(linkOf(`/proc/${pid}/fd/${fd}`))?.[1];
    return inode === undefined ? [] : [inode];
  });
  return inodes.map((inode) => tables.find((table) => holds(`/proc/${pid}/net/${table}`, inode)) ?? 'unknown');
}

function linkOf(path: string): string {
  try {
    return readlinkSync(path);
  } catch {
    // Closed since the folder was read.
    return '';
  }
}

function holds(table: string, inode: string): boolean {
  try {
    return readFileSync(table, 'utf8')
      .split('\n')
      .some((line) => line.trim().split(/\s+/).includes(inode));
  } catch {
    // This kernel has no such table.
    return false;
  }
}
