import type { Act, Conflict, Proposal } from './store.ts';

/** The same act made from what is kept now, where the person decided for their own version. */
export function overKept(act: Act, decided: readonly Pick<Conflict, 'table' | 'id' | 'kept'>[]): Act {
  return { ...act, proposals: act.proposals.flatMap((proposal) => overOne(proposal, decided)) };
}

function overOne(proposal: Proposal, decided: readonly Pick<Conflict, 'table' | 'id' | 'kept'>[]): Proposal[] {
  const id = 'put' in proposal ? proposal.put.id : proposal.remove.id;
  const conflict = decided.find((one) => one.table === proposal.table && one.id === id);
  if (conflict === undefined) return [proposal];
  const rev = conflict.kept?.rev ?? 0;
  if ('put' in proposal) return [{ ...proposal, put: { ...proposal.put, rev } } as Proposal];
  return conflict.kept === null ? [] : [{ ...proposal, remove: { id, rev } }];
}
