/** The way between the pages about who gets in. */
const ENTRIES = [
  ["/account", "Your account"],
  ["/staff", "Staff"],
  ["/tokens", "API tokens"],
] as const;

export interface PeopleMenuProps {
  readonly at: (typeof ENTRIES)[number][0];
  /** Of a manager: a technician has only the first. */
  readonly all: boolean;
}

export const PeopleMenu = ({ at, all }: PeopleMenuProps) =>
  all ? (
    <nav aria-label="Who gets in" class="beside people">
      {ENTRIES.map(([href, name]) => (
        <a href={href} {...(at === href ? { "aria-current": "page" } : {})}>
          {name}
        </a>
      ))}
    </nav>
  ) : null;
