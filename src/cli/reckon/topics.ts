/** Every topic of `reckon`, in the order of the help. */
import { batchTopics } from './batch-topics.ts';
import { bowTopics } from './bow-topic.ts';
import { convertTopics } from './convert-topic.ts';
import { feed, time } from './feed-topics.ts';
import { holeTopics } from './hole-topics.ts';
import { limitTopics } from './limit-topics.ts';
import { machineTopics } from './machine-topics.ts';
import { mass } from './mass-topic.ts';
import { placeTopics } from './place-topics.ts';
import { speed } from './speed-topic.ts';
import { stockTopics } from './stock-topics.ts';
import { tap } from './tap-topic.ts';
import { powerTap, tapTurns } from './tapping-topics.ts';
import { clearance, thread } from './thread-topics.ts';
import type { Topic } from './topic.ts';

export const topics: readonly Topic[] = [
  speed,
  feed,
  time,
  ...holeTopics,
  tap,
  clearance,
  thread,
  tapTurns,
  powerTap,
  ...placeTopics,
  ...machineTopics,
  ...limitTopics,
  ...stockTopics,
  mass,
  ...bowTopics,
  ...batchTopics,
  ...convertTopics,
];
