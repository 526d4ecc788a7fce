/** What stands in the place of a plan's work while its file holds no step. */
export function NoSteps() {
  return (
    <>
      <h1>This plan has no steps yet</h1>
      <p>
        Steps are added in the plan’s file: write them under <span className="bw-code">steps</span> with a text editor,
        save the file and open it again. The worked examples on the first page can be saved as files that show how a
        step is written.
      </p>
    </>
  );
}
