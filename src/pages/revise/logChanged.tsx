/** The account of a closed job rests on the log as it was. */
export const LogChanged = ({ job }: { job: string }) => (
  <p class="not-agreed" id="log-changed">
    <strong>The log changed after closing: correct the close-out.</strong>{" "}
    <a href={`/jobs/${job}/close-out?correct`}>Correct it from the log as it stands now</a>
  </p>
);
