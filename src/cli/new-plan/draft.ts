/** A plan being written: plain keys and values as they will stand in the file, and its text. */
import { Document, isMap, isScalar, visit } from 'yaml';
import { checkPlan } from '../../plan/checks/check-plan.ts';
import type { Finding } from '../../plan/checks/finding.ts';
import { readPlan } from '../../plan/read/read-plan.ts';
import { resolvePlan } from '../../plan/resolve/resolve-plan.ts';
import type { ResolvedPlan } from '../../plan/resolved.ts';
import type { ShopMachines } from '../../sitting/shop-machines.ts';

export type DraftValue = string | readonly DraftValue[] | { readonly [key: string]: DraftValue };
export type Draft = { readonly [key: string]: DraftValue };

const head = ` Written by millside new. What is left out here is worked out by the program: millside steps shows it all.
 Every value may carry its own unit. Look the numbers over against the drawing before metal is cut.`;

/** The text of the plan: small maps on one line, the rest below each other. */
export function draftText(draft: Draft): string {
  const document = new Document(draft, { schema: 'failsafe', version: '1.2', aliasDuplicateObjects: false });
  document.commentBefore = head;
  visit(document, {
    Map: (_, map, path) => {
      const isSmall = map.items.length <= 6 && map.items.every((pair) => isScalar(pair.value));
      if (isSmall && path.length > 1) map.flow = true;
    },
    Seq: (_, list) => {
      if (!list.items.some((item) => isMap(item) && item.items.length > 2)) list.flow = true;
    },
  });
  return document.toString({ lineWidth: 120, flowCollectionPadding: true });
}

export type Proof = {
  /** Why it cannot be worked from, one sentence each; empty when it can. */
  readonly against: readonly string[];
  readonly findings: readonly Finding[];
  readonly plan: ResolvedPlan | null;
};

/** Reads, resolves and checks the draft as `check` does with its file. */
export function proveDraft(draft: Draft, machines: ShopMachines): Proof {
  const read = readPlan(draftText(draft));
  if (!read.ok) return { against: read.problems.map(sentence), findings: [], plan: null };
  const resolution = resolvePlan(read.plan, { positions: read.positions, machines });
  if (!resolution.ok) return { against: resolution.problems.map(sentence), findings: [], plan: null };
  const findings = checkPlan(read.plan, resolution.plan, read.positions, machines);
  const stops = findings.filter((one) => one.severity === 'stop');
  return { against: stops.map(sentence), findings, plan: resolution.plan };
}

const sentence = ({ message, tryThis }: { readonly message: string; readonly tryThis: string }): string =>
  `${message}${tryThis === '' ? '' : `; ${tryThis}`}`;
