import type { Hit, Rule } from '../finding.ts';

/** Variants that nothing tells apart. */
export const variantIdle: Rule = {
  code: 'variant-idle',
  severity: 'warn',
  catches: 'Variants that go through the same operations, so that nothing makes them different.',
  example: 'the variants threaded and clearance go through the same operations',
  find: ({ resolved }): readonly Hit[] => {
    const routes = new Map<string, string[]>();
    for (const variant of resolved.variants) {
      const own = resolved.operations.filter((operation) => operation.variants.includes(variant.id));
      const route = own.map((operation) => operation.number).join();
      routes.set(route, [...(routes.get(route) ?? []), variant.id]);
    }
    return [...routes.values()]
      .filter((ids) => ids.length > 1)
      .map((ids) => ({
        operation: null,
        path: ['variants', ids[0] ?? ''],
        message: `the variants ${ids.join(' and ')} go through the same operations`,
        tryThis: `write "variants: ${ids[1] ?? ''}" at the operations that only one of them gets, or order them as one`,
      }));
  },
};
