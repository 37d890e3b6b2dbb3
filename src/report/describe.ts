import type { PaperDocument } from './document.ts';
import type { ReportModel } from './model.ts';
import { moneySection, nextTimeSection } from './sections/money.ts';
import { peopleSection } from './sections/people.ts';
import { headline, lossesSection, piecesSection } from './sections/pieces.ts';
import { checksSection, remarksSection, suspectsSection, wordsSection } from './sections/quality.ts';
import { accountsSection, pieceTimesSection, planSection, standardSection } from './sections/times.ts';

/**
 * The report as a document: every number as text, once, in the order in which a reader asks. Sections without content
 * are left out.
 *
 * Example: a batch without a rate has no section "Cost".
 */
export function describeReport(model: ReportModel): PaperDocument {
  return {
    title: `${model.job}: ${model.state === 'running' ? 'report so far' : 'report'}`,
    subtitle: `Batch ${model.batch}`,
    blocks: [
      ...headline(model),
      ...piecesSection(model),
      ...lossesSection(model),
      ...accountsSection(model),
      ...pieceTimesSection(model),
      ...planSection(model),
      ...standardSection(model),
      ...moneySection(model),
      ...checksSection(model),
      ...suspectsSection(model),
      ...wordsSection(model),
      ...peopleSection(model),
      ...nextTimeSection(model),
      ...remarksSection(model),
    ],
  };
}
