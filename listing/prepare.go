package listing

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"sync"
	"sync/atomic"

	"slabfolio/imaging"
	"slabfolio/listing/photos"
	"slabfolio/listing/piece"
	"slabfolio/listing/report"
	"slabfolio/listing/stage"
	"slabfolio/templates"
)

// A work is one piece on its way: all that is known of it, and what is built of
// it so far.
type work struct {
	b            *Batch
	job          *Job
	opts         Options          // with the workshop's defaults
	words        *templates.Words // of the default language
	tongues      []*tongue        // the further languages
	report       *report.Report
	forDocuments *report.Report      // what the documents are made of: the report as it is before the photos are rendered
	sources      []photos.Source     // every photo file, in the order of publication
	shots        []*photos.Shot      // the same, on their way
	plan         *photos.Top         // measured from a photo; nil when there is none
	planRecord   *report.PhotoRecord // its pictures, where the photo is published too
	findings     []piece.Finding
	pictured     []pictured // the photos that the documents show
	allBegun     func()     // says that every photo is being rendered, or none will be
	begun        <-chan struct{}

	folder    *stage.Folder  // the output folder that is being built
	earlier   *report.Report // of an earlier run; nil when there is none
	made      string         // which outputs this run makes, as Options.Only says it
	masterDir string         // a folder where photos of a big set wait; empty for a small one
	holds     atomic.Int64   // how many photos it may still keep in memory
	result    Result
}

// prepare is the job of the prepare command: one piece folder in, one finished
// output folder out.
func (b *Batch) prepare(ctx context.Context, j *Job) (Result, error) {
	left := j.Result(LeftOut)
	if Faulty(j.Findings) {
		left.Findings = ByRank(j.Findings)
		return left, nil
	}
	names, err := j.inputNames()
	if err != nil {
		return left, err
	}
	if r, ok := b.lookup(j, names); ok {
		return r, nil
	}
	inputs := j.inputs(names, b.opts.Jobs)
	made, err := b.Make(ctx, j)
	if err != nil || made.Result.Outcome == LeftOut {
		return made.Result, err
	}
	b.store(j, inputs, made.Result)
	return made.Result, nil
}

// Made is what Make has made of a piece.
type Made struct {
	Result  Result         // LeftOut, with the findings that say why, or Prepared
	Report  *report.Report // nil when the piece was left out
	Words   *templates.Words
	Imaging *imaging.Options // how its photos were read
}

// Make prepares one piece into the output folder, whether or not that is up to
// date. The error is for what stops the run.
func (b *Batch) Make(ctx context.Context, j *Job) (Made, error) {
	left := Made{Result: j.Result(LeftOut)}
	w, ok, err := b.begin(j)
	if err != nil {
		return left, err
	}
	if !ok {
		left.Result.Findings = ByRank(w.findings)
		return left, nil
	}
	err = w.make(ctx)
	switch {
	case errors.Is(err, stage.ErrBusy):
		left.Result.Findings = []piece.Finding{{Rank: piece.Fault, Code: codeBusy, Message: stage.ErrBusy.Error()}}
		return left, nil
	case errors.Is(err, errTaken):
		left.Result.Findings = append(ByRank(w.findings), takenFinding(b.opts.Out, left.Result.Serial))
		return left, nil
	case err != nil:
		return left, err
	}
	return Made{Result: w.result, Report: w.report, Words: w.words, Imaging: w.imagingOptions()}, nil
}

// make builds the output folder of one piece and puts it in its place.
func (w *work) make(ctx context.Context) error {
	defer w.abandon()
	return oneAfterAnother(
		w.claim,    // the folder's lock; nobody else's files are in its place
		w.open,     // photos decoded and looked at, one tone planned for the set
		w.announce, // which photos will be published, and the one colour of the documents
		atTheSameTime(
			w.ifMade(OnlyDocuments, oneAfterAnother(
				w.waitForPhotos, // small work last, where the last photos leave a processor idle
				w.addDocuments,  // the PDFs
			)),
			oneAfterAnother(
				w.ifMade(OnlyPhotos, w.addPhotos), // every rendition, or what an earlier run made
				w.closeFindings,                   // from here on the report is only read
				w.ifMade(OnlyListing, w.addPages), // the page, its text and JSON
				w.addReport,                       // report.json, and the outputs that this run does not make
				w.ifMade(OnlyListing, w.addZip),   // the bundle, of what stands there now
			),
		),
		w.addOverview, // the maker's page over the piece, of what stands there now
		w.commit,      // the folder in its place, whole
	)(ctx)
}

// fresh reports whether a finding is a line of the fresh file that nobody changed: the
// piece is left out, and the maker is told the rest of what there is to say of it.
func fresh(f piece.Finding) bool { return f.Code == "spec.starter" }

// begin runs the calculators; it returns false when the piece is left out.
func (b *Batch) begin(j *Job) (*work, bool, error) {
	begun := make(chan struct{})
	w := &work{allBegun: sync.OnceFunc(func() { close(begun) }), begun: begun, b: b, job: j, opts: b.opts.withDefaults(j.Workshop), findings: slices.Clone(j.Findings), result: j.Result(Prepared), made: b.opts.Only}
	if Faulty(slices.DeleteFunc(slices.Clone(w.findings), fresh)) {
		return w, false, nil
	}
	var err error
	if err = w.speak(); err != nil {
		return nil, false, err
	}
	all, err := photos.Find(j.Dir)
	if err != nil {
		return nil, false, err
	}
	sources, findings := photos.Arrange(j.Piece, all)
	w.sources = sources
	w.findings = append(append(w.findings, findings...), photos.PassedOver(j.Dir)...)
	w.findings = append(w.findings, photos.Deeper(j.Dir)...)
	unmeasured := w.measurePlan()
	o := report.Options{Prefer: w.b.opts.Units, Paper: w.opts.Paper, Lang: w.words.Lang, Words: w.words}
	if w.plan != nil {
		o.Plan, o.PlanResinShare, o.PlanResin = w.plan.Outline, w.plan.Resin, w.plan.ResinOn
	}
	w.report, err = report.Build(j.Piece.In(w.words.Lang), j.Workshop, o)
	if err == nil {
		err = w.inTongues(o)
	}
	if err != nil {
		return nil, false, err
	}
	w.report.Codecs = w.opts.Codecs
	w.report.Sealed = b.sealedRecord(j.Piece.Serial.V)
	for _, t := range w.tongues {
		t.report.Sealed = w.report.Sealed
	}
	w.findings = append(append(w.findings, w.report.Findings...), unprintable(w.report)...)
	w.findings = append(w.findings, w.untranslated()...)
	ok := !Faulty(w.findings)
	w.findings = append(w.findings, unmeasured...)
	return w, ok, nil
}

// check is the job of the check command: everything but writing.
func (b *Batch) check(ctx context.Context, j *Job) (Result, error) {
	r := j.Result(Checked)
	w, ok, err := b.begin(j)
	if err != nil {
		return r, err
	}
	if ok {
		defer w.close()
		o := w.imagingOptions()
		o.NoMaster = true
		if err := w.openWith(ctx, o); err != nil {
			return r, err
		}
		r.Photos = len(photos.Opened(w.shots))
		w.findings = append(w.findings, photos.ProposeCard(w.job.Piece, w.shots)...)
	} else {
		r.Outcome = LeftOut
	}
	r.Findings = ByRank(w.findings)
	return r, nil
}

// claim takes the place of the output folder and looks what stands there.
func (w *work) claim(context.Context) (err error) {
	if w.folder, err = stage.New(w.b.opts.Out, w.result.Serial); err != nil {
		return err
	}
	final := filepath.Join(w.b.opts.Out, w.result.Serial)
	if err := checkPlace(final, w.result.Serial); err != nil {
		return err
	}
	w.earlier = readReport(final)
	return w.lookForWithdrawn()
}

// closeFindings puts what was found into the report.
func (w *work) closeFindings(context.Context) error {
	w.report.Findings, w.report.Codecs = ByRank(w.findings), w.codecs()
	w.report.Public.Languages = w.textsInLanguages()
	w.result.Photos, w.result.Findings = len(w.report.Public.Photos), w.report.Findings
	return nil
}

func (w *work) commit(context.Context) error {
	if w.masterDir != "" {
		w.close()
		if err := os.RemoveAll(w.masterDir); err != nil {
			return err
		}
		w.masterDir = ""
	}
	aside, err := w.folder.Commit()
	for _, a := range aside {
		w.result.Findings = append(w.result.Findings, keptFinding(filepath.Join(w.b.opts.Out, w.result.Serial), a))
	}
	w.result.Findings = ByRank(w.result.Findings)
	return err
}

// abandon gives back what is held; after commit that is nothing more than photos.
func (w *work) abandon() {
	w.close()
	if w.folder != nil {
		w.folder.Abandon()
	}
}

// ifMade makes a step one that is done where this run makes that group of outputs.
// Photos that are not made are those of an earlier run.
func (w *work) ifMade(group string, s step) step {
	return func(ctx context.Context) error {
		switch {
		case w.isMade(group):
			return s(ctx)
		case group == OnlyPhotos:
			w.allBegun()
			w.takeEarlierPhotos()
		}
		return nil
	}
}

// isMade says whether a group of outputs is made in this run. --only listing
// makes the photos too when there are none yet.
func (w *work) isMade(group string) bool {
	o := w.made
	return o == "" || group == o || o == OnlyListing && group == OnlyPhotos && (w.earlier == nil || len(w.earlier.Public.Photos) == 0)
}

// takeEarlierPhotos uses the photos that an earlier run made.
func (w *work) takeEarlierPhotos() {
	if w.earlier == nil {
		return
	}
	w.report.Public.Photos, w.report.Photos = w.earlier.Public.Photos, w.earlier.Photos
	w.report.Accent, w.report.AccentDark = w.earlier.Accent, w.earlier.AccentDark
}
