"""A house as a model for other programs."""

from __future__ import annotations

from bermwright.app.modelling.files import ENDINGS, ModelError, Modelled, ModelOrder, model_file, model_glb

__all__ = ["ENDINGS", "ModelError", "ModelOrder", "Modelled", "model_file", "model_glb"]
