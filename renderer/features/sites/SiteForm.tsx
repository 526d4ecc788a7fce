import { useMemo } from 'react';
import type { Site } from '../../../shared-types/records/site.ts';
import { TextField } from '../../components/Fields/TextField.tsx';
import type { Draft } from '../../components/RecordForm/draft.ts';
import { RecordForm } from '../../components/RecordForm/RecordForm.tsx';
import { useRecordForm } from '../../components/RecordForm/useRecordForm.ts';
import { overKept } from '../../store/overKept.ts';
import { useStore } from '../session/useStore.ts';
import { addSite, editSite } from './siteActs.ts';
import { siteFaults } from './siteChecks.ts';

export interface SiteFormProps {
  sites: ReadonlyMap<string, Site>;
  /** The site as it is kept; null for a new one. */
  before: Site | null;
  leaveAsked: number;
  onStay: () => void;
  onSaved: (site: Site) => void;
  onLeave: () => void;
}

export function SiteForm({ sites, before, leaveAsked, onStay, onSaved, onLeave }: SiteFormProps) {
  const store = useStore();
  const initial = useMemo<Draft>(
    () => (before === null ? { id: store.newId(), rev: 0 } : { ...before }),
    // The form begins once; what changes meanwhile is found out by saving.
    // eslint-disable-next-line react-hooks/exhaustive-deps
    [],
  );
  const form = useRecordForm({
    initial,
    faultsOf: (draft) => siteFaults(draft, sites.values()),
    keepAs: before === null ? 'new-site' : `site-${before.id}`,
  });
  // Checked before it is sent: then it is a site.
  const site = form.draft as unknown as Site;
  return (
    <RecordForm
      form={form}
      heading={before === null ? 'Add a site' : `Edit site ${before.code}`}
      saveLabel={before === null ? 'Add site' : 'Save site'}
      save={(over) => store.commit(overKept(before === null ? addSite(site) : editSite(before, site), over))}
      onSaved={() => onSaved(site)}
      onLeave={onLeave}
      leaveAsked={leaveAsked}
      onStay={onStay}
    >
      <fieldset className="bw-form-group">
        <legend>The site</legend>
        <div className="bw-form-grid">
          <TextField {...form.text('code', 'Code')} description="Short, as “SRL”" />
          <TextField {...form.text('name', 'Name')} description="As “Skua Rock light, lamp platform”" optional />
          <div className="bw-form-wide">
            <TextField {...form.text('notes', 'Notes')} long optional />
          </div>
        </div>
      </fieldset>
    </RecordForm>
  );
}
