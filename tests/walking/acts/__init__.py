"""What persons do, one file for each part of the shop: from a walk to an attempt, or to none where nothing is at hand."""
