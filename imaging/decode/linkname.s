// This file lets the package declare functions whose bodies are elsewhere (see purewasm.go).
