"""Operations, their order, authorisations and signatures."""
