package piece

func checkPiece(d *decoder, p *Piece)       {}
func checkWorkshop(d *decoder, w *Workshop) {}
